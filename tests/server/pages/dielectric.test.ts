import { describe, expect, it } from 'vitest'
import { servedBoards } from '../servedBoards.ts'

const get = servedBoards()

describe('the page of the dielectric thickness', () => {
  it('finds the thickness of a trace, with window and curve', async () => {
    const { status, text, html } = await get(
      '/boards/small/dielectric?class=&layer=L1&width=0.1+mm&gap=&target=50+ohm&tolerance=10+%25',
    )
    expect(status).toBe(200)
    expect(text).toMatch(/Thickness of upper prepreg, pressed [\d.]+ mm gives 50.0 ohm/)
    expect(text).toMatch(/Inside the tolerance [\d.]+ to [\d.]+ mm/)
    expect(html).toContain('id="curve-1-title"')
  })

  it('takes width and target from a class, for the layers its nets use', async () => {
    const { status, text } = await get('/boards/small/dielectric?class=fast')
    expect(status).toBe(200)
    expect(text).toMatch(/Neck of fast on L\d, 0.080 mm wide/)
  })

  it('lists everything wrong at once with 422', async () => {
    const { status, text } = await get(
      '/boards/small/dielectric?class=&layer=&width=&gap=&target=50&tolerance=',
    )
    expect(status).toBe(422)
    expect(text).toContain('4 things have to be put right')
  })

  it('knows no class but those of the board', async () => {
    const { status, text } = await get('/boards/small/dielectric?class=nobody')
    expect(status).toBe(422)
    expect(text).toContain('no net class "nobody"')
  })
})
