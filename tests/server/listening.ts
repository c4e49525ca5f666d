import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { request } from 'node:http'
import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { createApp } from '../../src/server/createApp.ts'
import type { AppOptions } from '../../src/server/createApp.ts'
import { textOf } from '../report/markup.ts'

const BOARDS = resolve(import.meta.dirname, 'boards')

/** The app on a free port of this machine, with boards of its own in a folder of its own. */
export interface Listening {
  readonly folder: string
  readonly address: string
  readonly port: number
  readonly close: () => Promise<void>
}

export async function listen(options: Partial<AppOptions> = {}): Promise<Listening> {
  const folder = mkdtempSync(join(tmpdir(), 'boards-'))
  cpSync(BOARDS, folder, { recursive: true })
  const app = createApp({ boardsFolder: folder, version: '0.1.0', ...options })
  const server = await new Promise<Server>((done) => {
    const listening = app.listen(0, '127.0.0.1', () => {
      done(listening)
    })
  })
  const { port } = server.address() as AddressInfo
  return {
    folder,
    address: `http://127.0.0.1:${port}`,
    port,
    close: () =>
      new Promise((done) => {
        rmSync(folder, { recursive: true, force: true })
        server.closeAllConnections()
        server.close(() => {
          done()
        })
      }),
  }
}

export interface Page {
  readonly status: number
  readonly html: string
  readonly text: string
  readonly headers: Headers
}

export async function getPage({ address }: Listening, path: string): Promise<Page> {
  const response = await fetch(`${address}${path}`, { redirect: 'manual' })
  const html = await response.text()
  return { status: response.status, html, text: textOf(html), headers: response.headers }
}

export interface RawAnswer {
  readonly status: number
  readonly text: string
}

/** A request with a path and a host name as they are, which `fetch` would tidy up. */
export function rawGet(port: number, path: string, host = `127.0.0.1:${port}`): Promise<RawAnswer> {
  return new Promise((done, failed) => {
    const sent = request({ port, host: '127.0.0.1', path, headers: { host } }, (response) => {
      let text = ''
      response.setEncoding('utf8')
      response.on('data', (part: string) => (text += part))
      response.on('end', () => {
        done({ status: response.statusCode ?? 0, text })
      })
    })
    sent.on('error', failed)
    sent.end()
  })
}
