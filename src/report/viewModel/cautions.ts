/** What this report does not say, printed in every one. */
export const CAUTIONS: readonly string[] = [
  'This is an estimate for planning. It does not replace the fabricator’s field solution with their own pressed thicknesses and etch data, the reading of a TDR coupon, or a three-dimensional simulation of the via field. Where they differ, they decide.',
  'The interface’s specification and its publisher’s layout guide come before every screening rule here; a published allowance holds for the stackup it was published with.',
  'Main routes are taken as uniform lines over solid planes, necks as running past the vias and lands that stand beside their planned paths, cut by cut in two dimensions, with the mean of each stretch. Neighbouring traces are not in that impedance; what they send into the neck stands apart, with the impedance while they switch. Real impedance varies along the neck. No coupon contains the breakout.',
  'Permittivity depends on resin content, frequency and how it was measured. A catalogue value is not that of the pressed ply.',
  'The narrowest lines depend most on etching: ask for the finished width and its tolerance before release.',
  'Layer counts cover the escape of signals alone. Planes, power, other parts and the routing outside the packages can decide the board.',
  'Values marked as assumed, and figures said to be from memory, have to be confirmed before release.',
  'Spacing for insulation or safety is not judged here: it follows the applicable standards and is the work of a licensed or otherwise qualified person.',
]

/** Who signs, and for what. */
export const SIGNATURES: readonly { readonly role: string; readonly task: string }[] = [
  { role: 'Design', task: 'inputs complete and right' },
  { role: 'Signal integrity', task: 'steps, lengths and skew accepted' },
  { role: 'Layout', task: 'breakout can be routed as planned' },
  { role: 'Fabricator', task: 'stackup, targets and features confirmed' },
]
