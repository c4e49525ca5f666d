import type { Board } from '../../src/board/board.ts'
import { readBoard, type BoardReading } from '../../src/board/readBoard.ts'

/**
 * A small board of our own making: four signal layers of eight, one package of 8 × 8 balls at
 * 0.8 mm with a hole in the middle, a memory byte, one serial pair and its supplies. Tests change
 * it by replacing pieces of its text.
 */
export const EXAMPLE_TEXT = `title: Example board
revision: A
units: mm

stackup:
  total_thickness: 1.0 mm
  thickness_tolerance: 10 %
  layers:
    - {mask: top mask, over_laminate: 20 um, over_trace: 13 um, permittivity: 3.8, loss_tangent: 0.025, at: 1 GHz, permittivity_tolerance: 5 %}
    - {copper: L1, role: mixed, net: GND, thickness: 40 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {prepreg: prepreg 1, thickness: 75 um, permittivity: 3.6, loss_tangent: 0.01, at: 1 GHz, permittivity_tolerance: 3 %, thickness_tolerance: 10 %}
    - {copper: L2, role: plane, net: GND, thickness: 15 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {core: core 1, thickness: 100 um, permittivity: 3.7, loss_tangent: 0.01, at: 1 GHz, permittivity_tolerance: 3 %, thickness_tolerance: 10 %}
    - {copper: L3, role: signal, thickness: 15 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {prepreg: prepreg 2, thickness: 150 um, permittivity: 3.6, loss_tangent: 0.01, at: 1 GHz, permittivity_tolerance: 3 %, thickness_tolerance: 10 %}
    - {copper: L4, role: plane, net: VDD, thickness: 30 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {core: core 2, thickness: 200 um, permittivity: 3.7, loss_tangent: 0.01, at: 1 GHz, permittivity_tolerance: 3 %, thickness_tolerance: 10 %}
    - {copper: L5, role: plane, net: GND, thickness: 30 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {prepreg: prepreg 3, thickness: 150 um, permittivity: 3.6, loss_tangent: 0.01, at: 1 GHz, permittivity_tolerance: 3 %, thickness_tolerance: 10 %}
    - {copper: L6, role: signal, thickness: 15 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {core: core 3, thickness: 100 um, permittivity: 3.7, loss_tangent: 0.01, at: 1 GHz, permittivity_tolerance: 3 %, thickness_tolerance: 10 %}
    - {copper: L7, role: plane, net: GND, thickness: 15 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {prepreg: prepreg 4, thickness: 75 um, permittivity: 3.6, loss_tangent: 0.01, at: 1 GHz, permittivity_tolerance: 3 %, thickness_tolerance: 10 %}
    - {copper: L8, role: signal, thickness: 40 um, sidewall: 70 deg, roughness: 1.5 um, thickness_tolerance: 10 %}
    - {mask: bottom mask, over_laminate: 20 um, over_trace: 13 um, permittivity: 3.8, loss_tangent: 0.025, at: 1 GHz, permittivity_tolerance: 5 %}

vias:
  - {name: through via, kind: through, drilled: 0.2 mm, plating: 25 um, pad: 0.42 mm, antipad: 0.65 mm, unconnected_inner_pads: removed, in_pad: false, filled: false, capped: false}

fabrication:
  class: advanced
  trace_width: {outer: 80 um, inner: 75 um}

packages:
  - name: U1
    part: example of 60 balls
    side: top
    at: [20 mm, 20 mm]
    rotation: 0 deg
    grid: {rows: 8, columns: 8, pitch: 0.8 mm}
    missing: [D4:E5]
    ball_diameter: 0.45 mm
    land: 0.40 mm
    mask_opening: 0.50 mm
    via: through via
    via_placement: dog-bone
    power: ["VDD*"]
    ground: [GND]
    unlisted: ground
    nets:
      A1: DQ0
      A2: DQ1
      A3: DQ2
      A4: DQ3
      A5: DQ4
      A6: DQ5
      B1: DQ6
      B2: DQ7
      B3: DQS_P
      B4: DQS_N
      C1: TX0_P
      D1: TX0_N
      C2: RESET
      C3: VDD
      C4: GND

classes:
  - {name: data, structure: single, target: 50 ohm, tolerance: 10 %, edge: {rise: 60 ps, between: 20-80, shape: gaussian}, source_impedance: 40 ohm, load_impedance: 48 ohm}
  - {name: strobe, structure: pair, target: 90 ohm, tolerance: 10 %, edge: 60 ps, neck: {gap: 90 um}, main: {gap: 120 um}, source_impedance: 80 ohm, load_impedance: 96 ohm}
  - {name: serial, interface: pcie-gen3}

nets:
  - {match: "DQ?", class: data, group: byte 0}
  - {match: "DQS_*", class: strobe, group: byte 0}
  - {match: "TX0_*", class: serial, length: 42 mm}

claims:
  - {package: U1, technology: through, signal_layers: 4, source: example}

analysis: {frequency: 1 GHz, comparison_tolerance: 0.5 um, reflection_limit: 5 %, electrical_length_limit: 0.1667}
`

/** Each `[old, new]` must fit once or more; a change that fits nothing would test the unchanged board. */
export function exampleText(changes: readonly (readonly [old: string, replacement: string])[] = []): string {
  return changes.reduce((text, [old, replacement]) => {
    if (!text.includes(old)) throw new RangeError(`the example board has no "${old}"`)
    return text.replaceAll(old, replacement)
  }, EXAMPLE_TEXT)
}

/** Reads a description from text; companions are given as texts or bytes by name. */
export function readText(
  text: string | Uint8Array,
  companions: Readonly<Record<string, string | Uint8Array>> = {},
  file = 'board.yaml',
): Promise<BoardReading> {
  return readBoard({
    file,
    text,
    companion: (name) => {
      const content = companions[name]
      return typeof content === 'string' ? new TextEncoder().encode(content) : (content ?? null)
    },
  })
}

/** The example board with pieces of its text replaced. Throws with all messages where it does not read. */
export async function exampleBoard(
  changes: readonly (readonly [old: string, replacement: string])[] = [],
  companions: Readonly<Record<string, string | Uint8Array>> = {},
): Promise<Board> {
  const { board, issues } = await readText(exampleText(changes), companions)
  if (board === null) throw new Error(issues.map((issue) => issue.message).join('\n'))
  return board
}
