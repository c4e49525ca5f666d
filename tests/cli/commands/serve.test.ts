import { createServer, type Server } from 'node:http'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { packageRoot } from '../../../src/cli/packageRoot.ts'
import { serveCommand } from '../../../src/cli/commands/serve.ts'
import type { Shell } from '../../../src/cli/shell.ts'
import { run } from '../testShell.ts'

const FOLDER = join(packageRoot(), 'reference/demo')

let other: Server | null = null
afterEach(() => {
  other?.close()
  other = null
})

/** A server of this test on a free port of the loopback address. */
async function takenPort(): Promise<string> {
  const server = createServer()
  other = server
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve)
  })
  const address = server.address()
  return String(typeof address === 'object' ? address?.port : address)
}

describe('narrows serve', () => {
  it('serves the boards at the address that it prints, until it is told to end', async () => {
    let announce: (address: string) => void = () => undefined
    const address = new Promise<string>((resolve) => {
      announce = resolve
    })
    const shell: Shell = {
      print: (text) => {
        announce(/http:\S+/.exec(text)?.[0] ?? '')
      },
      write: () => undefined,
      complain: () => undefined,
      input: () => Promise.resolve(''),
    }
    const ended = serveCommand(FOLDER, { port: '0', host: '127.0.0.1' }, shell)
    const url = await address
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/)
    const response = await fetch(url)
    expect(response.status).toBe(200)
    expect(await response.text()).toContain('hydrophone-recorder')
    process.emit('SIGTERM')
    expect(await ended).toBe(0)
    await expect(fetch(url)).rejects.toThrow()
  }, 30_000)

  it('says in one line that a port is taken', async () => {
    const port = await takenPort()
    expect(await run(['serve', FOLDER, '--port', port])).toEqual({
      exit: 2,
      out: '',
      err: `port ${port} of 127.0.0.1 is taken: end its owner, or choose another with --port\n`,
    })
  })

  it('lists what is wrong with folder and port', async () => {
    const { exit, err } = await run(['serve', 'no-such-folder', '--port', '70000'])
    expect(exit).toBe(2)
    expect(err).toBe(
      '--port: found "70000"; allowed: a whole number from 0 to 65535\nno-such-folder: there is no such file or folder\n',
    )
    expect((await run(['serve', import.meta.filename])).err).toContain('this is a file, a folder is wanted')
  })

  it('says in one line that an address is not of this machine', async () => {
    // 192.0.2.0/24 is set apart for documents and is on no machine: RFC 5737.
    const { exit, err } = await run(['serve', FOLDER, '--port', '0', '--host', '192.0.2.1'])
    expect([exit, err]).toEqual([2, '--host: 192.0.2.1 is no address of this machine\n'])
  })
})
