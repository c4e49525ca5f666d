import type { LengthUnit } from '../units/quantity.ts'
import type { Finding, FindingCode, Measure, Remedy, Subject } from '../findings/finding.ts'
import { formatMeasure } from './measure.ts'
import { capital, someOf, withLayerNames } from './viewModel/words.ts'

/** How a finding is put into words. */
interface Wording {
  readonly heading: string
  /** First half of the sentence; the figures follow it. */
  readonly lead: (subject: string) => string
  /** Why it matters, or what it does not mean. */
  readonly reason: string
  /** Said where no remedy was found. */
  readonly otherwise: string
}

const WORDINGS: Readonly<Record<FindingCode, Wording>> = {
  'neck-off-target': {
    heading: 'Neck misses its target',
    lead: (subject) => `The neck of ${subject} leaves its impedance target`,
    reason:
      'Under the package the channel sets the width, so the neck is not a controlled line. Whether the edge sees it is judged by its length and its reflection.',
    otherwise: 'No width that fits the channel and no dielectric thickness in reach meets the target.',
  },
  'main-off-target': {
    heading: 'Main route misses its target',
    lead: (subject) => `The main route of ${subject} leaves its impedance target`,
    reason: 'The main route is a controlled line and is measured on the coupon.',
    otherwise: 'No width in reach meets the target on this layer; another layer or stackup is needed.',
  },
  'step-too-large': {
    heading: 'Reflection of the breakout is too large',
    lead: (subject) => `The breakout of ${subject} sends back more of the edge than allowed`,
    reason:
      'At this edge the step in impedance, or what hangs of the via, shows. A via acts as a capacitor: it adds to what a low neck sends back and takes from a high one.',
    otherwise:
      'No width, thickness, layer or back drill that was tried brings the reflection below its limit.',
  },
  'neck-too-long': {
    heading: 'Neck is longer than its guide allows',
    lead: (subject) => `The neck of ${subject} is longer than allowed`,
    reason: 'A published allowance holds for its publisher’s stackup; the reflection is judged apart.',
    otherwise: 'An exit nearer to the ball, or another layer, is a choice of the layout.',
  },
  'process-decides': {
    heading: 'The process decides about the neck',
    lead: (subject) =>
      `The neck of ${subject} passes as described, and sends back more than allowed where the process comes out otherwise`,
    reason:
      'Width, thickness and permittivity at the likely end of their tolerances, as root sum of squares. No coupon contains a neck, so nobody measures it.',
    otherwise: 'No closer tolerance of one input alone brings it below the limit.',
  },
  'channel-too-narrow': {
    heading: 'Trace does not fit the channel',
    lead: (subject) => `The channel has too little room for ${subject}`,
    reason: 'A net that cannot pass here has to leave on another layer or by another channel.',
    otherwise: 'No trace width and no pad that the fabricator can make lets it pass here.',
  },
  'ball-not-escaped': {
    heading: 'Nets without a way out',
    lead: (subject) => `Signal balls of ${subject} find no way out on the signal layers there are`,
    reason: 'Every channel they could take is full on every layer their via reaches.',
    otherwise: 'More signal layers, blind vias or finer traces are needed.',
  },
  'drill-too-near': {
    heading: 'Drilled hole too near',
    lead: (subject) => `A drilled hole comes nearer to copper or to its neighbour than allowed, ${subject}`,
    reason: 'The drill wanders and the layers shift: copper nearer than this may be cut or shorted.',
    otherwise: 'A smaller drill or a narrower trace is needed.',
  },
  'mask-too-near': {
    heading: 'Mask opening too near',
    lead: (subject) => `The mask openings leave less room than allowed, ${subject}`,
    reason:
      'Where an opening reaches a trace, bare copper lies beside a solder ball; a web too thin comes off.',
    otherwise: 'A smaller opening or a narrower trace is needed.',
  },
  'annular-ring-too-small': {
    heading: 'Annular ring too small',
    lead: (subject) => `The annular ring of ${subject} is below the class it is built to`,
    reason: 'External rings are measured from the finished hole, internal ones from the drilled hole.',
    otherwise: 'A larger pad or a smaller drill is needed.',
  },
  'aspect-ratio-too-high': {
    heading: 'Hole too deep for its diameter',
    lead: (subject) => `The hole of ${subject} is deeper for its drilled diameter than allowed`,
    reason: 'Plating thins out in the middle of a deep, narrow hole.',
    otherwise: 'A larger drill, a thinner board or a shorter span is needed.',
  },
  'span-unbuildable': {
    heading: 'Via cannot be built as described',
    lead: (subject) => `The span of ${subject} cannot be built with the capability stated`,
    reason:
      'Each lamination adds its own holes: what starts and ends where decides how often the board is pressed.',
    otherwise: 'Another span, or another order of lamination, has to be agreed with the fabricator.',
  },
  'trace-over-antipad': {
    heading: 'Traces run over the edge of antipads',
    lead: (subject) => `Traces of ${subject} lie over openings in their reference plane`,
    reason: 'The return current has to go round the opening; a value for solid planes then reads low.',
    otherwise: 'A smaller antipad is needed, where the fabricator can drill it.',
  },
  'vias-load-neck': {
    heading: 'Vias beside the neck change its impedance',
    lead: (subject) => `Among the vias the neck of ${subject} has another impedance than over solid planes`,
    reason:
      'Openings in the planes raise it, barrels and pads beside it lower it; steps and reflections here count them.',
    otherwise: 'Smaller antipads, or a finer drill without inner pads, bring the two nearer.',
  },
  'neck-couples': {
    heading: 'Traces beside a neck disturb it',
    lead: (subject) => `The traces beside the neck of ${subject} send more noise into it than allowed`,
    reason:
      'Traces side by side form a coupler. All are taken to switch at the worst instant, so less is likely on a real bus. This noise runs back towards the sources of those traces; what runs on, the far-end noise, reaches receivers that face one source.',
    otherwise:
      'No gap and no length that was tried brings the noise below its limit; another layer or lane is needed.',
  },
  'antipads-merge': {
    heading: 'Antipads leave no plane between them',
    lead: (subject) => `The antipads of ${subject} leave too little plane between neighbours`,
    reason: 'Without a web of copper between two holes the traces there have no reference below them.',
    otherwise: 'A smaller antipad or a wider via pitch is needed.',
  },
  'below-capability': {
    heading: 'Finer than the fabricator makes',
    lead: (subject) => `${capital(subject)} asks for more than the stated capability`,
    reason: 'What is finer than the stated class costs yield, or is refused.',
    otherwise: 'A finer capability class has to be agreed with the fabricator.',
  },
  'formula-outside-limits': {
    heading: 'Formula used outside its limits',
    lead: (subject) => `The impedance of ${subject} comes from a formula outside its published limits`,
    reason: 'The error band is widened for it, but has no published ground there.',
    otherwise: 'A field solution by the fabricator has to decide here.',
  },
  'assumed-input-decides': {
    heading: 'An assumed value decides the verdict',
    lead: (subject) => `The verdict on ${subject} turns on a value that the description leaves out`,
    reason: 'Another plausible value gives another verdict.',
    otherwise: 'State the value in the description.',
  },
  'stub-too-long': {
    heading: 'Via stub too long for the data rate',
    lead: (subject) => `The barrel left hanging by ${subject} is too long`,
    reason: 'A stub is a filter: near its quarter-wave frequency nothing passes.',
    otherwise: 'A deeper exit layer, a blind via or drilling back is needed.',
  },
  'skew-too-large': {
    heading: 'Skew above its limit',
    lead: (subject) => `The delays of ${subject} spread more than allowed`,
    reason: 'Delay is compared layer by layer: outer layers are faster than inner ones.',
    otherwise: 'The main routes have to take up the difference.',
  },
  'claim-refuted': {
    heading: 'Claimed layer count does not hold',
    lead: (subject) => `A layer count claimed for ${subject} is not what the plan needs`,
    reason: 'The plan counts what passes each channel; a claim counts on fewer or finer obstacles.',
    otherwise: 'Check the claim against the rule it was made with.',
  },
  'thickness-does-not-add-up': {
    heading: 'Stackup does not add up',
    lead: (subject) => `The layers of ${subject} do not sum to the thickness stated`,
    reason: 'Either a pressed thickness or the stated total is not what will be built.',
    otherwise: 'Correct the layer or the total in the description.',
  },
}

export interface FindingText {
  readonly heading: string
  readonly sentence: string
  readonly reason: string
  readonly remedies: readonly string[]
  readonly alike: string | null
}

/** The words of a finding: what is wrong with its figures, why it matters, what would help. */
export function findingText(
  finding: Finding,
  unit: LengthUnit,
  layerName: (layer: number) => string,
): FindingText {
  const wording = WORDINGS[finding.code]
  const figure = (measure: Measure): string => withFigure(measure, unit, layerName)
  const lead = wording.lead(subjectText(finding.subject, layerName))
  const remedies = finding.remedies.map((remedy) => remedyText(remedy, unit, layerName))
  return {
    heading: wording.heading,
    sentence: `${lead}: ${figure(finding.measured)}, ${figure(finding.limit)} (${finding.limitSource}).`,
    reason: wording.reason,
    remedies: remedies.length === 0 ? [wording.otherwise] : remedies,
    alike:
      finding.subject.alike.length === 0
        ? null
        : `The same holds for ${someOf(alikeNames(finding.subject, layerName), 6)}.`,
  }
}

/** Further subjects, with layers by their names in the stackup. */
export function alikeNames({ alike }: Subject, layerName: (layer: number) => string): string[] {
  return alike.map((each) => withLayerNames(each, layerName))
}

/** `class memory data on L1 at U1`. */
export function subjectText(subject: Subject, layerName: (layer: number) => string): string {
  const name =
    subject.kind === 'package' || subject.kind === 'via' ? subject.name : `${subject.kind} ${subject.name}`
  const layer = subject.layer === null || subject.kind === 'layer' ? '' : ` on ${layerName(subject.layer)}`
  const place = subject.package === null || subject.kind === 'package' ? '' : ` at ${subject.package}`
  return `${name}${layer}${place}`
}

/** `neck impedance 57.8 ohm ± 2.0 %`. */
export function withFigure(measure: Measure, unit: LengthUnit, layerName: (layer: number) => string): string {
  return `${withLayerNames(measure.what, layerName)} ${formatMeasure(measure, unit, layerName)}`.trim()
}

function remedyText(
  { action, value, result }: Remedy,
  unit: LengthUnit,
  layerName: (layer: number) => string,
): string {
  const figure = formatMeasure(value, unit, layerName)
  const deed = capital(`${action} ${figure}`.trim())
  // Where the deed is its own outcome, saying it once is enough.
  if (value.what === result.what && value.value === result.value) return `${deed}.`
  const then = formatMeasure(result, unit, layerName)
  return `${deed}: ${then === '' ? result.what : `${result.what} becomes ${then}`}.`
}
