import type { FindingCode } from './finding.ts'

/** What a code means, for the report's key and the developers' table. */
export interface CatalogueEntry {
  readonly title: string
  readonly meaning: string
  /** Whence the limit that it is held against. */
  readonly limit: string
  readonly severity: string
}

/** Every code that a rule can raise, in the order of `FINDING_CODES`. */
export const CATALOGUE: Readonly<Record<FindingCode, CatalogueEntry>> = {
  'neck-off-target': {
    title: 'Neck misses its target',
    meaning:
      'The impedance of a neck lies outside the tolerance of its class, or the stackup cannot carry it.',
    limit: 'Target and tolerance of the class.',
    severity:
      'By what the edge sees of it: note while the reflection is small or the published neck length grants it, warning above the reflection limit, error above twice the limit or without an impedance.',
  },
  'main-off-target': {
    title: 'Main route misses its target',
    meaning:
      'The impedance of a main route lies outside the tolerance of its class, or no width reaches the target.',
    limit: 'Target and tolerance of the class.',
    severity: 'Error; warning where the error band of the formula reaches back into the tolerance.',
  },
  'step-too-large': {
    title: 'Reflection of the breakout is too large',
    meaning:
      'The peak that a neck with its via sends back at its net’s edge, between main routes or as a change before the device, is above its limit.',
    limit: 'Reflection limit of the class, else of the analysis settings.',
    severity:
      'Warning above the limit, error above twice the limit; within the published neck length a note, or a warning where the class states a limit of its own.',
  },
  'neck-too-long': {
    title: 'Neck is too long',
    meaning:
      'A neck is longer than the guide of its interface allows, or takes up more of the edge than is short.',
    limit:
      'Published neck length of the class, with its source; else the electrical length of the analysis settings.',
    severity:
      'Beyond the guide a warning, an error if the reflection is too large as well. Electrically long alone as severe as its reflection: a note while that is small or granted.',
  },
  'process-decides': {
    title: 'The process decides about the neck',
    meaning:
      'A neck sends back no more than its limit as described, and more where width, thickness and permittivity come out at the likely end of their tolerances. No coupon contains a neck.',
    limit: 'Reflection limit of the class, else of the analysis settings.',
    severity: 'Warning; within the published neck length a note, unless the class states a limit of its own.',
  },
  'channel-too-narrow': {
    title: 'Trace does not fit the channel',
    meaning: 'Not one trace of a class passes between two pads or lands, or a pair cannot pass side by side.',
    limit: 'Clearance of trace to pad of the fabricator.',
    severity:
      'Error where balls of the class stay inside and no channel is open to it, warning where some are, note where all get out. A pair that parts on its way: warning; one that could: note.',
  },
  'ball-not-escaped': {
    title: 'Nets without a way out',
    meaning: 'Signal balls that the plan with the package’s own vias leaves inside.',
    limit: 'None may stay inside.',
    severity: 'Error.',
  },
  'drill-too-near': {
    title: 'Drilled hole too near to copper',
    meaning:
      'A hole wall nearer than allowed to a trace in the channel, to the plane round its antipad, to the lands beside it, or to the next hole.',
    limit: 'Drill to copper, and hole wall to hole wall, of the fabricator.',
    severity: 'Error; in a channel as for a channel that is too narrow.',
  },
  'mask-too-near': {
    title: 'Mask opening too near to a trace',
    meaning: 'A mask opening too near to a trace between lands, or too little mask between two openings.',
    limit: 'Mask opening to trace, and mask web, of the fabricator.',
    severity: 'In a channel as for a channel that is too narrow; the web a warning.',
  },
  'annular-ring-too-small': {
    title: 'Annular ring too small',
    meaning:
      'Copper round a hole below the limit of the performance class: external from the finished hole, internal from the drilled hole, as drawn or after the layers have shifted.',
    limit: 'IPC-6012 performance class, as stated for the fabricator.',
    severity: 'Error as drawn; after the shift a warning for class 3, a note for class 2.',
  },
  'aspect-ratio-too-high': {
    title: 'Hole too deep for its diameter',
    meaning: 'Depth over drilled diameter above what is plated.',
    limit: 'Aspect ratio of the fabricator, for drilled holes and for microvias.',
    severity: 'Error.',
  },
  'span-unbuildable': {
    title: 'Microvia cannot be built as described',
    meaning:
      'More microvias stacked on each other than the fabricator stacks, or one deeper than a microvia may be.',
    limit: 'Stacked microvias of the fabricator; IPC-T-50M for the depth.',
    severity: 'Stack: error. Depth: warning.',
  },
  'trace-over-antipad': {
    title: 'Traces run over the edge of antipads',
    meaning: 'Traces in a channel reach over the openings of the vias beside it in their reference plane.',
    limit: 'The solid plane that the impedance formulas assume.',
    severity:
      'Note, as it cannot be avoided in many fields; warning where a trace has no plane under its whole width.',
  },
  'vias-load-neck': {
    title: 'Vias beside the neck change its impedance',
    meaning:
      'Antipads in the planes, barrels and pads beside a neck move its impedance, averaged along the via pitch, by more than the tolerance of its class.',
    limit: 'Tolerance of the class.',
    severity: 'Note while the reflection of the neck is small or granted, else warning.',
  },
  'neck-couples': {
    title: 'Traces beside a neck disturb it',
    meaning:
      'The near-end noise that the traces beside a neck send into it, all at the worst instant, is above its limit.',
    limit: 'Crosstalk limit of the analysis settings.',
    severity: 'Warning.',
  },
  'antipads-merge': {
    title: 'Antipads leave no plane between them',
    meaning:
      'The web of plane between neighbouring antipads is narrower than can be etched, or is not there.',
    limit: 'Narrowest inner trace of the fabricator.',
    severity: 'Warning; error where the antipads touch.',
  },
  'below-capability': {
    title: 'Finer than the fabricator makes',
    meaning: 'A width, a gap or a dielectric below the smallest that is made.',
    limit: 'Capability of the fabricator.',
    severity: 'Error.',
  },
  'formula-outside-limits': {
    title: 'Formula used outside its limits',
    meaning: 'The impedance of a line in use comes from a formula outside the range that its author states.',
    limit: 'Range of the formula, with its source.',
    severity: 'Note; warning where the widened error band reaches across the edge of the tolerance.',
  },
  'assumed-input-decides': {
    title: 'An assumed value decides the verdict',
    meaning:
      'Within the plausible range of a value that the description leaves out, a line or a reflection both passes and fails.',
    limit: 'That of the verdict which turns.',
    severity: 'Warning.',
  },
  'stub-too-long': {
    title: 'Via stub too long for the data rate',
    meaning: 'The barrel beyond the exit layer is longer than a tenth of what puts its null on Nyquist.',
    limit: '0.3 inch over Gb/s: E. Bogatin, quoted by D. Telian, Signal Integrity Journal, article 2962.',
    severity: 'Warning; error where the quarter-wave null lies at or below Nyquist.',
  },
  'skew-too-large': {
    title: 'Skew above its limit',
    meaning:
      'The arrivals of a pair or a match group spread more than allowed, package delays and barrels included.',
    limit: 'Skew limit of the class.',
    severity: 'Error once the main lengths are given; before, a note of what the main routes must take up.',
  },
  'claim-refuted': {
    title: 'Claimed layer count does not hold',
    meaning: 'The plan needs more signal layers than somebody said it would.',
    limit: 'The claim, with its source.',
    severity: 'Warning.',
  },
  'thickness-does-not-add-up': {
    title: 'Stackup does not add up',
    meaning: 'The layers do not sum to the stated thickness within its tolerance.',
    limit: 'Stated thickness and tolerance.',
    severity: 'Warning.',
  },
}
