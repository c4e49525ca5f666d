import type { NextFunction, Request, Response } from 'express'
import { messagePage } from '../report/pages/messagePage.ts'
import { renderPage } from '../report/renderPage.ts'

/**
 * Refuses requests that reach a loopback address under a foreign name.
 *
 * A page elsewhere can have its own host name resolve to 127.0.0.1 and then read, in the visitor's browser,
 * what is served here (DNS rebinding). The browser still sends that host name, so it tells. Requests that
 * arrive at any other address of the machine were let in on purpose and pass.
 */
export function loopbackGuard(version: string) {
  return (request: Request, response: Response, next: NextFunction): void => {
    if (!isLoopbackAddress(request.socket.localAddress ?? '') || isLoopbackHost(request.headers.host)) {
      next()
      return
    }
    response.status(403).send(renderPage('message', messagePage('foreignHost', version)))
  }
}

function isLoopbackAddress(address: string): boolean {
  return address === '::1' || /^(::ffff:)?127\./.test(address)
}

/** `localhost:8080`, `127.0.0.1`, `[::1]:80`; names below localhost belong to this machine too (RFC 6761, 6.3). */
export function isLoopbackHost(host: string | undefined): boolean {
  return (
    host !== undefined && /^(localhost|[a-z0-9-]+\.localhost|127(\.\d{1,3}){3}|\[::1\])(:\d+)?$/i.test(host)
  )
}
