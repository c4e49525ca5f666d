/** A literal that may change by 1 % without any result changing beyond rounding: nothing a test could see. */
export interface Exemption {
  readonly file: string
  /** Part of the source line; a literal is exempt when its line holds this and its own text is `literal`. */
  readonly line: string
  readonly literal: string
  readonly reason: string
}

const BRACKET = 'end of a bracket: the root inside it is the same'

function bracketEnds(file: string, line: string, literals: readonly string[]): Exemption[] {
  return literals.map((literal) => ({ file, line, literal, reason: BRACKET }))
}

/** Each must still match a literal that survives, or the run fails. */
export const EXEMPTIONS: readonly Exemption[] = [
  ...bracketEnds('broadsidePairCohn.ts', 'bracketRoot(excess', ['10']),
  ...bracketEnds('striplinePairThick.ts', 'bracketRoot(excess', ['0.99']),
  ...bracketEnds('striplinePairThick.ts', '* line.spacing) /', ['2', '4', '0.1']),
  ...bracketEnds('striplinePairWidened.ts', 'bracketRoot(excess', ['0.9']),
  ...bracketEnds('striplinePairWidened.ts', '* line.spacing) /', ['2', '4', '0.1']),
  {
    file: 'striplinePairWidened.ts',
    line: 'const air = { ...line, relativePermittivity: 1 }',
    literal: '1',
    reason: 'both impedances that are equated fall alike with the permittivity',
  },
  {
    file: 'coplanarStripline.ts',
    line: 'const air = { width, thickness, relativePermittivity: 1 }',
    literal: '1',
    reason: 'only asked for its geometry, which no permittivity enters',
  },
  {
    file: 'coplanarEmbedded.ts',
    line: 'relativePermittivity ?? 1',
    literal: '1',
    reason: 'never taken: a cover without sheets is refused',
  },
  {
    file: 'incrementalInductance.ts',
    line: 'STEP_PER_SMALLEST_LENGTH',
    literal: '1e-3',
    reason: 'step of a central difference: the result must not depend on it, which its test asserts',
  },
  {
    file: 'striplineExact.ts',
    line: 'x > 40',
    literal: '40',
    reason: 'where two expressions change over that agree to the last digit',
  },
]
