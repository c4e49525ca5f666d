import { statSync } from 'node:fs'
import type { Server } from 'node:http'
import { resolve as resolvePath } from 'node:path'
import { BadInput, problemWith } from '../badInput.ts'
import { EXIT, type ExitCode } from '../exitCode.ts'
import { fileTrouble } from '../fileTrouble.ts'
import { toolVersion } from '../packageRoot.ts'
import type { Shell } from '../shell.ts'

export interface ServeOptions {
  readonly port: string
  readonly host: string
}

const LOOPBACK: readonly string[] = ['127.0.0.1', '::1', 'localhost']
const SIGNALS = ['SIGINT', 'SIGTERM'] as const

/** Serves a folder of boards until a signal ends it. Throws BadInput where folder, port or address will not do. */
export async function serveCommand(folder: string, options: ServeOptions, shell: Shell): Promise<ExitCode> {
  const port = checkOptions(folder, options)
  const { createApp } = await import('../../server/createApp.ts')
  const { pageThreads } = await import('../../server/pageThread.ts')
  const site = { boardsFolder: resolvePath(folder), version: toolVersion() }
  const threads = pageThreads(site)
  const app = createApp({
    ...site,
    makeSlowly: threads.make,
    onFault: (fault) => {
      shell.complain(
        `fault of the tool: ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n`,
      )
    },
  })
  const server = await listen((done) => app.listen(port, options.host, done), options)
  shell.print(`Boards of ${folder} at ${addressOf(server)}\nCtrl-C ends it.\n`)
  if (!LOOPBACK.includes(options.host)) {
    shell.complain(`warning: everyone who can reach ${options.host} can read these boards\n`)
  }
  await untilEnded(server)
  await threads.close()
  return EXIT.fine
}

function checkOptions(folder: string, { port }: ServeOptions): number {
  const problems: string[] = []
  const number = /^\d{1,5}$/.test(port) ? Number(port) : -1
  if (number < 0 || number > 65_535)
    problems.push(problemWith('--port', `"${port}"`, 'a whole number from 0 to 65535'))
  try {
    if (!statSync(folder).isDirectory()) problems.push(`${folder}: this is a file, a folder is wanted`)
  } catch (error) {
    const trouble = fileTrouble(folder, error)
    if (trouble === null) throw error
    problems.push(trouble)
  }
  if (problems.length > 0) throw new BadInput(problems)
  return number
}

type Listening = (done: (error?: Error) => void) => Server

/** Express hands a taken port to the callback instead of throwing. */
function listen(start: Listening, { host, port }: ServeOptions): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server = start((error) => {
      if (error === undefined) resolve(server)
      else reject(new BadInput([listenTrouble(error, host, port)]))
    })
  })
}

function listenTrouble(error: Error, host: string, port: string): string {
  const code = 'code' in error ? error.code : ''
  if (code === 'EADDRINUSE')
    return `port ${port} of ${host} is taken: end its owner, or choose another with --port`
  if (code === 'EACCES')
    return `port ${port} of ${host} is not allowed for this user: choose one above 1023 with --port`
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND') return `--host: ${host} is no address of this machine`
  return `cannot listen on port ${port} of ${host}: ${error.message}`
}

function addressOf(server: Server): string {
  const address = server.address()
  if (address === null || typeof address === 'string') return String(address)
  const host = address.family === 'IPv6' ? `[${address.address}]` : address.address
  return `http://${host}:${address.port}/`
}

function untilEnded(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const end = (): void => {
      for (const signal of SIGNALS) process.off(signal, end)
      server.close(() => {
        resolve()
      })
      server.closeIdleConnections()
    }
    for (const signal of SIGNALS) process.on(signal, end)
  })
}
