import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { MakePage, PageAnswer, PageRequest } from '../../src/server/page.ts'
import { Patience } from '../../src/server/patience.ts'

const request: PageRequest = { page: 'board', board: 'small', fields: {} }
const other: PageRequest = { ...request, page: 'report' }
const answer: PageAnswer = { status: 200, html: 'the page', counted: null }

/** A maker whose pages are ready, or fail, when the test says so. */
function maker(): Maker {
  const nothing = (): void => undefined
  const made: Maker = {
    asked: [],
    ready: nothing,
    fail: nothing,
    make: (asked) => {
      made.asked.push(asked)
      return new Promise((resolve, reject) => {
        made.ready = () => {
          resolve(answer)
        }
        made.fail = () => {
          reject(new Error('no page'))
        }
      })
    },
  }
  return made
}

interface Maker {
  readonly asked: PageRequest[]
  readonly make: MakePage
  ready: () => void
  fail: () => void
}

beforeEach(() => {
  vi.useFakeTimers()
})

afterEach(() => {
  vi.useRealTimers()
})

describe('patience with slow pages', () => {
  it('hands over at once what is ready soon', async () => {
    const made = maker()
    const page = new Patience(made.make).page(request)
    made.ready()
    expect(await page).toBe(answer)
  })

  it('ends in time, and makes a page once however often it is asked for before it is ready', async () => {
    const made = maker()
    const patience = new Patience(made.make)
    for (let time = 0; time < 3; time += 1) {
      const page = patience.page(request)
      await vi.advanceTimersByTimeAsync(2000)
      expect(await page).toBeNull()
    }
    made.ready()
    expect(await patience.page(request)).toBe(answer)
    expect(made.asked).toEqual([request])
  })

  it('makes a page anew once it was handed over, so that a changed description is seen', async () => {
    const made = maker()
    const patience = new Patience(made.make)
    const first = patience.page(request)
    made.ready()
    await first
    void patience.page(request)
    expect(made.asked).toHaveLength(2)
  })

  it('tells pages apart by all that they are asked with', () => {
    const made = maker()
    const patience = new Patience(made.make)
    void patience.page(request)
    void patience.page(other)
    void patience.page({ ...request, fields: { package: 'U1' } })
    expect(made.asked).toHaveLength(3)
  })

  it('forgets a page that nobody comes back for', async () => {
    const made = maker()
    const patience = new Patience(made.make)
    void patience.page(request)
    await vi.advanceTimersByTimeAsync(2000)
    made.ready()
    await vi.advanceTimersByTimeAsync(120_000)
    void patience.page(request)
    expect(made.asked).toHaveLength(2)
  })

  it('passes on why a page could not be made, and tries again when it is asked again', async () => {
    const made = maker()
    const patience = new Patience(made.make)
    const page = patience.page(request)
    made.fail()
    await expect(page).rejects.toThrow('no page')
    void patience.page(request)
    expect(made.asked).toHaveLength(2)
  })
})
