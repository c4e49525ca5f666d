/** How a command ends. */
export const EXIT = {
  fine: 0,
  /** It ran, and found something at or above the asked severity. */
  findings: 1,
  /** Bad input: everything that is wrong was printed, nothing was written. */
  badInput: 2,
  /** A fault of the tool itself. */
  fault: 3,
} as const

export type ExitCode = (typeof EXIT)[keyof typeof EXIT]
