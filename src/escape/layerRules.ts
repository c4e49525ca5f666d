import type { LayerRule, ViaTechnology } from './escape.ts'

/** What the published rules need to know of a package. */
export interface RuleInput {
  readonly rows: number
  readonly columns: number
  readonly signals: number
  readonly channels: number
  /** Deepest ring that holds a used signal ball. */
  readonly signalRows: number
  /** Traces per channel between lands, between through vias, and between blind ones. */
  readonly landTraces: number
  readonly throughTraces: number
  readonly blindTraces: number
  /** Technology whose vias count where a rule does not tell the two apart. */
  readonly chosen: ViaTechnology
  /** What the traces are counted with, for print, e.g. `class memory data`. */
  readonly trace: string
}

export interface LayerCount {
  readonly unrounded: number
  readonly layers: number
}

/** Quotients of whole numbers can miss a whole number by rounding; this much counts as none. */
const ROUNDING = 1e-9

/**
 * Signal layers for through vias: the first layer frees 1 + t rows between lands, the second 1 + t
 * between vias, every further one only t, because the vias of the rows before stay in the way.
 * Null where deeper layers free no row. Derived; agrees with a practitioners' mailing list (2008-03-28):
 * eight rows with one trace per channel need six layers.
 */
export function throughLayers(signalRows: number, landTraces: number, viaTraces: number): LayerCount | null {
  const second = signalRows - (1 + landTraces)
  const deeper = second - (1 + viaTraces)
  if (second <= 0) return rounded(signalRows / (1 + landTraces))
  if (deeper <= 0) return rounded(1 + second / (1 + viaTraces))
  return viaTraces > 0 ? rounded(2 + deeper / viaTraces) : null
}

/**
 * Signal layers for blind vias or microvias: every layer frees 1 + t rows, because the rows before leave
 * no vias below. Derived; the layer model of R. Shi and C.-K. Cheng (UC San Diego, with DAC 2006) assumes the same.
 */
export function blindLayers(signalRows: number, landTraces: number, viaTraces: number): LayerCount {
  const deeper = signalRows - (1 + landTraces)
  return rounded(deeper <= 0 ? signalRows / (1 + landTraces) : 1 + deeper / (1 + viaTraces))
}

/**
 * Signals over channels times traces per channel: AMD/Xilinx UG1099 v2.0 (2022), Layer Count Estimation and
 * Optimization. Its Table 1 prints the ratio rounded to nearest, so both roundings are given. Null where
 * no trace passes.
 */
export function signalsToChannels(
  signals: number,
  channels: number,
  traces: number,
): { unrounded: number; up: number; nearest: number } | null {
  if (signals === 0) return { unrounded: 0, up: 0, nearest: 0 }
  if (!(channels > 0 && traces > 0)) return null
  const unrounded = signals / (channels * traces)
  return { unrounded, up: wholeLayers(unrounded), nearest: Math.max(1, Math.round(unrounded)) }
}

/** Rows over four: the shorter way to the centre is half the rows, and each layer is to free two of them. */
export function rowsOverFour(rows: number, columns: number): LayerCount {
  return rounded(Math.min(rows, columns) / 4)
}

function wholeLayers(unrounded: number): number {
  return Math.max(0, Math.ceil(unrounded - ROUNDING))
}

function rounded(unrounded: number): LayerCount {
  return { unrounded, layers: wholeLayers(unrounded) }
}

const RATIO_SOURCE =
  'AMD/Xilinx, Recommended Design Rules and Strategies for BGA Devices, UG1099 v2.0, 2022-11-23, Layer Count Estimation and Optimization'

/** Every rule side by side: they disagree, and a designer should see by how much. */
export function layerRules(input: RuleInput): LayerRule[] {
  return [...rowRules(input), ...ratioRules(input), quarterRule(input)]
}

function rowRules(input: RuleInput): LayerRule[] {
  const { signalRows, landTraces, throughTraces, blindTraces } = input
  const first = `${rowsText(signalRows)} of signals; the first layer frees ${1 + landTraces}`
  const through = throughLayers(signalRows, landTraces, throughTraces)
  const blind = blindLayers(signalRows, landTraces, blindTraces)
  return [
    {
      id: 'rows',
      technology: 'through',
      tracesPerChannel: throughTraces,
      basis:
        through === null
          ? `${first}, the second 1, and no layer frees the rest: no trace passes between the vias, counted with ${input.trace}`
          : `${first}, the second ${1 + throughTraces}, every further one ${throughTraces}`,
      unrounded: through?.unrounded ?? null,
      signalLayers: through?.layers ?? null,
      source:
        'practitioners’ mailing list, 2008-03-28: eight rows with one trace per channel need six layers; the formula is derived',
    },
    {
      id: 'rows',
      technology: 'blind',
      tracesPerChannel: blindTraces,
      basis: `${first}, every further one ${1 + blindTraces}`,
      unrounded: blind.unrounded,
      signalLayers: blind.layers,
      source:
        'derived from the row rule for vias that end where their net leaves; R. Shi and C.-K. Cheng, DAC 2006, model blind vias alike',
    },
  ]
}

function ratioRules(input: RuleInput): LayerRule[] {
  const { signals, channels } = input
  const traces = viaTracesOf(input)
  const ratio = signalsToChannels(signals, channels, traces)
  const basis =
    ratio === null
      ? `${signals} signals over ${channels} channels that pass no trace, counted with ${input.trace}: no number of layers is enough`
      : `${signals} signals over ${channels} channels of ${traceText(traces)} each, counted with ${input.trace}`
  const common = { technology: 'any', tracesPerChannel: traces, unrounded: ratio?.unrounded ?? null } as const
  return [
    {
      id: 'signals to channels, up',
      ...common,
      basis: `${basis}${ratio === null ? '' : ', rounded up'}`,
      signalLayers: ratio?.up ?? null,
      source: RATIO_SOURCE,
    },
    {
      id: 'signals to channels, nearest',
      ...common,
      basis: `${basis}${ratio === null ? '' : ', rounded to nearest'}`,
      signalLayers: ratio?.nearest ?? null,
      source: `${RATIO_SOURCE}, Table 1 as printed`,
    },
  ]
}

function quarterRule(input: RuleInput): LayerRule {
  const { rows, columns } = input
  const count = rowsOverFour(rows, columns)
  return {
    id: 'rows over four',
    technology: 'any',
    tracesPerChannel: viaTracesOf(input),
    basis: `${rowsText(Math.min(rows, columns))} along the shorter side, over 4, whatever the channel takes`,
    unrounded: count.unrounded,
    signalLayers: count.layers,
    source: 'comp.arch.fpga, thread on board layers for a 672-ball FPGA: rule of thumb',
  }
}

function viaTracesOf(input: RuleInput): number {
  return input.chosen === 'through' ? input.throughTraces : input.blindTraces
}

function rowsText(count: number): string {
  return count === 1 ? '1 row' : `${count} rows`
}

function traceText(count: number): string {
  return count === 1 ? '1 trace' : `${count} traces`
}
