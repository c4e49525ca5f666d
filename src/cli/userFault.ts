/** Runs a pipeline that throws RangeError for what a board cannot carry; that message comes back as a problem. */
export function userFault<Result extends object>(place: string, run: () => Result): Result | string {
  try {
    return run()
  } catch (error) {
    if (error instanceof RangeError) return `${place}: ${error.message}`
    throw error
  }
}
