import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { BoardFolder } from '../../src/server/boardFolder.ts'
import { BoardShelf } from '../../src/server/boardShelf.ts'

let folder = ''

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'shelf-'))
  cpSync(resolve(import.meta.dirname, 'boards'), folder, { recursive: true })
})

afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

describe('a folder of boards', () => {
  it('names its descriptions in order, without other files', () => {
    writeFileSync(join(folder, '.yaml'), '')
    writeFileSync(join(folder, 'notes.txt'), '')
    expect([...new BoardFolder(folder).files().keys()]).toEqual(['broken', 'small'])
  })

  it('takes .yaml where .yml stands beside it', () => {
    writeFileSync(join(folder, 'small.yml'), 'title: other')
    expect(new BoardFolder(folder).files().get('small')).toBe('small.yaml')
  })

  it('reads companions below it, and none above it', () => {
    const boards = new BoardFolder(folder)
    expect(boards.companion('small-u1.csv')).not.toBeNull()
    expect(boards.companion('./small-u1.csv')).not.toBeNull()
    for (const name of [
      '../x.csv',
      '/etc/passwd',
      '',
      '.',
      'missing.csv',
      `../${folder.split('/').at(-1) ?? ''}-other/a.csv`,
    ]) {
      expect(boards.companion(name)).toBeNull()
    }
  })

  it('stamps a file by what changes with it', () => {
    const boards = new BoardFolder(folder)
    const before = boards.stamp('small.yaml')
    expect(boards.stamp('small.yaml')).toBe(before)
    writeFileSync(join(folder, 'small.yaml'), 'title: longer than nothing')
    expect(boards.stamp('small.yaml')).not.toBe(before)
    expect(boards.stamp('missing.yaml')).toBe('')
  })
})

describe('the shelf', () => {
  it('reads and reviews a board once', async () => {
    const shelf = new BoardShelf(folder)
    const first = await shelf.board('small')
    const review = first?.review()
    expect(review?.board.title).toBe('Small board')
    const second = await shelf.board('small')
    expect(second).toBe(first)
    expect(second?.review()).toBe(review)
  })

  it('reads again what changed, its ball map included', async () => {
    const shelf = new BoardShelf(folder)
    const first = await shelf.board('small')
    writeFileSync(join(folder, 'small-u1.csv'), 'ball,net\nA1,ONLY\n')
    const second = await shelf.board('small')
    expect(second).not.toBe(first)
    expect(second?.reading.board?.nets.map((net) => net.name)).toEqual(['ONLY'])
  })

  it('has no review of what cannot be read', async () => {
    const broken = await new BoardShelf(folder).board('broken')
    expect(broken?.reading.board).toBeNull()
    expect(broken?.review()).toBeNull()
  })

  it('keeps a bounded number of boards, the latest used', async () => {
    for (let index = 0; index < 20; index++)
      cpSync(join(folder, 'broken.yml'), join(folder, `b${index}.yaml`))
    const shelf = new BoardShelf(folder)
    const first = await shelf.board('small')
    const oldest = await shelf.board('b0')
    for (let index = 1; index < 20; index++) {
      await shelf.board(`b${index}`)
      await shelf.board('small')
    }
    expect(await shelf.board('small')).toBe(first)
    expect(await shelf.board('b0')).not.toBe(oldest)
  })
})
