import { describe, expect, it } from 'vitest'
import { locator } from '../../../src/board/document/locate.ts'
import { parseYaml } from '../../../src/board/document/parseYaml.ts'
import { formatPath } from '../../../src/board/document/path.ts'

const TEXT = `title: a
stackup:
  layers:
    - {copper: L1, thickness: 15 um}
    - {core: c, thickness: 100 um}
copy: &x
  name: y
other: *x
`

describe('places in a description', () => {
  const { document, lines } = parseYaml(TEXT, false)
  const at = (...path: (string | number)[]): string => {
    if (document === null) return 'no document'
    const { line, column } = locator(document, lines)(path)
    return `${String(line)}:${String(column)}`
  }

  it('are the values themselves', () => {
    expect(at('stackup', 'layers', 1, 'thickness')).toBe('5:28')
    expect(at('title')).toBe('1:8')
  })

  it('are the nearest group where something is missing', () => {
    expect(at('stackup', 'layers', 1, 'permittivity')).toBe('5:7')
    expect(at('vias')).toBe('1:1')
  })

  it('are found through aliases', () => {
    expect(at('other', 'name')).toBe('7:9')
  })

  it('are written as in programs', () => {
    expect(formatPath(['stackup', 'layers', 3, 'thickness'])).toBe('stackup.layers[3].thickness')
    expect(formatPath(['packages', 0, 'nets', 'A 1'])).toBe('packages[0].nets["A 1"]')
    expect(formatPath([])).toBe('')
  })
})
