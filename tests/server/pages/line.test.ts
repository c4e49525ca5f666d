import { describe, expect, it } from 'vitest'
import { servedBoards } from '../servedBoards.ts'

const get = servedBoards()

describe('the page of one line', () => {
  it('begins as a form with a width that is made', async () => {
    const { status, html, text } = await get('/boards/small/line')
    expect(status).toBe(200)
    expect(html).toContain('value="0.080 mm"')
    expect(text).not.toContain('Result')
  })

  it('answers a query, so that the answer can be linked', async () => {
    const { status, text } = await get('/boards/small/line?layer=L1&width=0.1+mm')
    expect(status).toBe(200)
    expect(text).toMatch(/Impedance [\d.]+ ohm ± [\d.]+ % /)
    expect(text).toMatch(/Every method that applies, the chosen one first .* chosen /)
  })

  it('has the chosen formula first, and its value is the answer', async () => {
    const { text } = await get('/boards/small/line?layer=L1&width=0.1+mm')
    const answer = /Result Impedance ([\d.]+ ohm ± [\d.]+ %)/.exec(text)?.[1] ?? 'none'
    expect(text.slice(text.indexOf('the chosen one first'))).toMatch(new RegExp(`chosen ${answer}`))
  })

  it('prints capacitance and inductance as the command does', async () => {
    const { text } = await get('/boards/small/line?layer=L1&width=0.1+mm')
    expect(text).toMatch(/Capacitance [\d.]+\spF\/m/)
    expect(text).toMatch(/Inductance [\d.]+\snH\/m/)
  })

  it('draws the section with lines of equal potential, and says how they were found', async () => {
    const { html, text } = await get('/boards/small/line?layer=L1&width=0.1+mm&gap=0.12+mm')
    expect(html).toContain('<desc id="line-section-desc">')
    expect(text).toContain('Lines of equal potential every 10 %')
    expect(text).toMatch(/Field solution by boundary elements, \d+ unknowns/)
    expect(html.length).toBeLessThan(60_000)
  })

  it('reads sums and other units', async () => {
    const one = await get('/boards/small/line?layer=L1&width=0.1+mm')
    const other = await get('/boards/small/line?layer=1&width=60+um+%2B+0.04+mm')
    const value = (text: string): string | undefined => /Impedance ([\d.]+ ohm)/.exec(text)?.[1]
    expect(value(other.text)).toBe(value(one.text))
  })

  it('lists everything wrong at once with 422, and keeps what was typed', async () => {
    const { status, html, text } = await get('/boards/small/line?layer=L2&width=80&gap=wide')
    expect(status).toBe(422)
    expect(text).toContain('3 things have to be put right')
    expect(text).toContain('which is a plane')
    expect(text).toContain('80 without a unit')
    expect(html).toContain('value="80"')
    expect(html).toContain('value="wide"')
    expect(html).toContain('<option value="L2" selected>')
  })

  it('says what the stackup cannot carry, with 422', async () => {
    const { status, text } = await get('/boards/small/line?layer=L1&width=1+um')
    expect(status).toBe(422)
    expect(text).toContain('would etch away')
  })

  it('does not stumble over strange queries', async () => {
    for (const query of [
      'layer=L1&layer=L4&width=1',
      'width[]=1',
      '__proto__=1',
      'layer=%F0%9F%8E%88',
      `width=${'9'.repeat(5000)}`,
    ]) {
      expect((await get(`/boards/small/line?${query}`)).status).toBe(422)
    }
  })
})
