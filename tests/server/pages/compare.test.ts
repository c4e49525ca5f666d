import { describe, expect, it } from 'vitest'
import { servedBoards } from '../servedBoards.ts'

const get = servedBoards()

describe('the page that compares technologies', () => {
  it('is reached from the review of the board, and asks which package first', async () => {
    expect((await get('/boards/small')).html).toContain('href="/boards/small/compare"')
    const { status, text } = await get('/boards/small/compare')
    expect(status).toBe(200)
    expect(text).toContain('Compare')
    expect(text).not.toContain('Order of cost')
  })

  it('shows every way with its layers, necks and what it changes', async () => {
    const { status, html, text } = await get('/boards/small/compare?package=U1')
    expect(status).toBe(200)
    expect(text).toContain('U1: 9 ways to build the breakout')
    for (const words of ['Microvias in the lands', 'cannot be built', 'Neck of fast', 'A quotation decides'])
      expect(text).toContain(words)
    for (const id of ['layers-u1', 'necks-u1', 'changes-u1']) expect(html).toContain(`<table id="${id}"`)
  })

  it('says the same when it is asked again', async () => {
    const first = await get('/boards/small/compare?package=U1')
    expect((await get('/boards/small/compare?package=U1')).html).toBe(first.html)
  })

  it('knows no package but those of the board', async () => {
    const { status, text } = await get('/boards/small/compare?package=%3Cb%3E')
    expect(status).toBe(422)
    expect(text).toContain('there is no package "<b>" on this board')
  })

  it('cannot be had of a board that is not there', async () => {
    expect((await get('/boards/nowhere/compare')).status).toBe(404)
  })
})
