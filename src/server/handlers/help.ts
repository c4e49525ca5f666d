import type { RequestHandler } from 'express'
import { helpPage } from '../../report/pages/helpPage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { Site } from '../createApp.ts'

export function showHelp({ version }: Site): RequestHandler {
  return (_request, response) => {
    response.send(renderPage('help', helpPage(version)))
  }
}
