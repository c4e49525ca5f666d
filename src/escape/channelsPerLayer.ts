/**
 * Gaps between neighbouring rows and columns, counted on the four sides of the grid: 2 (rows − 1) +
 * 2 (columns − 1). For a square grid of n balls a side this is the 4 (n − 1) of AMD/Xilinx, UG1099 v2.0
 * (2022), Layer Count Estimation and Optimization, where 5 × 5 balls have 16.
 * Throws RangeError when a count is not a positive whole number.
 */
export function channelsPerLayer(rows: number, columns: number): number {
  for (const count of [rows, columns]) {
    if (!(Number.isInteger(count) && count > 0)) {
      throw new RangeError(`a grid needs at least one row and one column, got ${rows} × ${columns}`)
    }
  }
  return 2 * (rows - 1) + 2 * (columns - 1)
}
