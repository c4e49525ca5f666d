/**
 * The pages of a folder of boards. The app is built and returned; whoever called it listens.
 *
 *     GET  /                          the uses, the boards, a form for a pasted description
 *     GET  /boards/:name              review on screen
 *     GET  /boards/:name/line         one line, by every formula
 *     GET  /boards/:name/dielectric   thickness that meets a target
 *     GET  /boards/:name/compare      one breakout built in several ways
 *     GET  /boards/:name/report       printable report
 *     POST /review                    review of a pasted description, which is not stored
 *     GET  /help
 *     GET  /assets/*.css
 */
import express from 'express'
import type { Express } from 'express'
import { views } from '../report/templates.ts'
import { BoardShelf } from './boardShelf.ts'
import { failedRequest, unknownPage } from './failures.ts'
import { showBoard } from './handlers/board.ts'
import { showCompare } from './handlers/compare.ts'
import { showDielectric } from './handlers/dielectric.ts'
import { showHelp } from './handlers/help.ts'
import { showHome } from './handlers/home.ts'
import { showLine } from './handlers/line.ts'
import { showReport } from './handlers/report.ts'
import { reviewText } from './handlers/reviewText.ts'
import { sendStylesheet } from './handlers/stylesheet.ts'
import { loopbackGuard } from './loopbackGuard.ts'
import { securityHeaders } from './securityHeaders.ts'

export interface AppOptions {
  /** Folder whose descriptions (`.yaml`, `.yml`) are served; nothing is ever written to it. */
  readonly boardsFolder: string
  readonly version: string
  /** False behind a proxy of one's own, which passes on foreign host names; see `loopbackGuard`. */
  readonly guardLoopback?: boolean
  /** Told of faults of the program; the page shows none of it. */
  readonly onFault?: (fault: unknown) => void
}

/** What every handler is given. */
export interface Site {
  readonly shelf: BoardShelf
  readonly version: string
}

/** A pasted description grows to at most three times its size in a form. */
const MAX_BODY = '12mb'

export function createApp(options: AppOptions): Express {
  const { boardsFolder, version, guardLoopback = true, onFault = console.error } = options
  // All views are compiled now, so that a slip in one of them shows at start.
  views()
  const site: Site = { shelf: new BoardShelf(boardsFolder), version }
  const app = express()
  app.disable('x-powered-by')
  app.set('query parser', 'simple')
  app.use(securityHeaders)
  if (guardLoopback) app.use(loopbackGuard(version))
  app.get('/', showHome(site))
  app.get('/help', showHelp(site))
  app.get('/assets/:file', sendStylesheet)
  app.get('/boards/:name', showBoard(site))
  app.get('/boards/:name/line', showLine(site))
  app.get('/boards/:name/dielectric', showDielectric(site))
  app.get('/boards/:name/compare', showCompare(site))
  app.get('/boards/:name/report', showReport(site))
  app.post(
    '/review',
    express.urlencoded({ extended: false, limit: MAX_BODY, parameterLimit: 5 }),
    reviewText(site),
  )
  app.use(unknownPage(site))
  app.use(failedRequest(site, onFault))
  return app
}
