import type { ErrorRequestHandler, RequestHandler } from 'express'
import { messagePage } from '../report/pages/messagePage.ts'
import type { MessageName } from '../report/pages/messagePage.ts'
import { renderPage } from '../report/renderPage.ts'
import type { Site } from './page.ts'

/** Whatever no route answered. */
export function unknownPage({ version }: Site): RequestHandler {
  return (_request, response) => {
    response.status(404).send(renderPage('message', messagePage('unknownPage', version)))
  }
}

/** Whatever a route or the reading of a body threw: the sender's mistakes by name, faults of ours without details. */
export function failedRequest({ version }: Site, onFault: (fault: unknown) => void): ErrorRequestHandler {
  return (error: unknown, _request, response, next) => {
    if (response.headersSent) {
      next(error)
      return
    }
    const status = statusOf(error)
    if (status === 500) onFault(error)
    response.status(status).send(renderPage('message', messagePage(messageFor(status), version)))
  }
}

function statusOf(error: unknown): number {
  const status = typeof error === 'object' && error !== null && 'status' in error ? error.status : undefined
  return typeof status === 'number' && status >= 400 && status < 500 ? status : 500
}

function messageFor(status: number): MessageName {
  if (status === 500) return 'failed'
  return status === 413 ? 'tooLarge' : 'badRequest'
}
