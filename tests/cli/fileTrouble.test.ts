import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { fileTrouble } from '../../src/cli/fileTrouble.ts'

function troubleOf(file: string): string | null {
  try {
    readFileSync(file)
    return 'read'
  } catch (error) {
    return fileTrouble(file, error)
  }
}

describe('fileTrouble', () => {
  it('says in words what the file system refused', () => {
    expect(troubleOf('no-such.yaml')).toBe('no-such.yaml: there is no such file or folder')
    expect(troubleOf(import.meta.dirname)).toBe(`${import.meta.dirname}: this is a folder, a file is wanted`)
    expect(troubleOf(`${import.meta.filename}/x`)).toContain('a part of the path is not a folder')
  })

  it('says so where access is denied, and repeats what it has no words for', () => {
    const denied = Object.assign(new Error('EACCES: permission denied'), { code: 'EACCES' })
    expect(fileTrouble('secret.yaml', denied)).toBe('secret.yaml: access is denied')
    const rare = Object.assign(new Error('EIO: i/o error, read'), { code: 'EIO' })
    expect(fileTrouble('a.yaml', rare)).toBe('a.yaml: EIO: i/o error, read')
  })

  it('leaves errors that are not of the file system alone', () => {
    expect(fileTrouble('x', new RangeError('width must be above 0'))).toBeNull()
  })
})
