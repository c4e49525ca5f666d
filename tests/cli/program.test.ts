import { describe, expect, it } from 'vitest'
import { toolVersion } from '../../src/cli/packageRoot.ts'
import { run } from './testShell.ts'

describe('the command line', () => {
  it('says at the top of its help what it is for', async () => {
    const { exit, out } = await run(['--help'])
    const top = out.split('\n').slice(0, 6).join('\n')
    expect(exit).toBe(0)
    expect(top).toContain('Check high-speed nets through the breakout')
    expect(top).toContain('Pick a dielectric thickness for fine traces')
    expect(top).toContain('Print a review report')
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100)
  })

  it('prints its version', async () => {
    expect(await run(['--version'])).toEqual({ exit: 0, out: `${toolVersion()}\n`, err: '' })
  })

  it.each([
    [[], 'Usage: narrows'],
    [['reveiw'], "unknown command 'reveiw'"],
    [['review'], "missing required argument 'board'"],
    [['review', 'a.yaml', '--fail-on', 'fatal'], 'Allowed choices are error, warning, note, never'],
    [['review', 'a.yaml', '--frob'], "unknown option '--frob'"],
    [['review', 'a.yaml', 'b.yaml'], 'too many arguments'],
  ])('ends %j with 2 and says why', async (args, words) => {
    const { exit, out, err } = await run(args)
    expect([exit, out]).toEqual([2, ''])
    expect(err).toContain(words)
  })

  it.each(['review', 'line', 'escape', 'compare', 'dielectric', 'serve', 'schema'])(
    'has help for %s',
    async (name) => {
      const { exit, out } = await run([name, '--help'])
      expect(exit).toBe(0)
      expect(out).toContain(`Usage: narrows ${name}`)
    },
  )
})

describe('schema', () => {
  it('prints a published schema', async () => {
    const { exit, out } = await run(['schema', 'line'])
    expect(exit).toBe(0)
    expect(JSON.parse(out)).toMatchObject({ title: 'Impedance of one line' })
  })

  it('names the schemas there are', async () => {
    expect(await run(['schema', '../../package'])).toEqual({
      exit: 2,
      out: '',
      err: 'schema: found "../../package"; allowed: board, review, line, escape, dielectric, compare\n',
    })
  })
})
