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
 *
 * Pages that take seconds are made by `makeSlowly`. Where one is not ready soon, the answer says so (202) and asks again
 * by itself.
 */
import express from 'express'
import type { Express } from 'express'
import { helpPage } from '../report/pages/helpPage.ts'
import { renderPage } from '../report/renderPage.ts'
import { views } from '../report/templates.ts'
import { boardRoute, sendAnswer } from './boardRoute.ts'
import { failedRequest, unknownPage } from './failures.ts'
import { typedFields } from './formFields.ts'
import { loopbackGuard } from './loopbackGuard.ts'
import { openSite } from './page.ts'
import type { MakePage, PageRequest, SiteOptions } from './page.ts'
import { answerPage } from './pages/answerPage.ts'
import { renderHome } from './pages/home.ts'
import { Patience } from './patience.ts'
import { securityHeaders } from './securityHeaders.ts'
import { sendStylesheet } from './stylesheet.ts'

export interface AppOptions extends SiteOptions {
  /** False behind a proxy of one's own, which passes on foreign host names; see `loopbackGuard`. */
  readonly guardLoopback?: boolean
  /** Told of faults of the program; the page shows none of it. */
  readonly onFault?: (fault: unknown) => void
  /** Makes the pages that take seconds, as `pageThreads` does; where it is left out they hold up all others. */
  readonly makeSlowly?: MakePage
}

/** A pasted description grows to at most three times its size in a form. */
const MAX_BODY = '12mb'

export function createApp(options: AppOptions): Express {
  const { version, guardLoopback = true, onFault = console.error } = options
  // All views are compiled now, so that a slip in one of them shows at start.
  views()
  const site = openSite(options)
  const { makeSlowly = (request: PageRequest) => answerPage(site, request) } = options
  const slow = new Patience(makeSlowly)
  const app = express()
  app.disable('x-powered-by')
  app.set('query parser', 'simple')
  app.use(securityHeaders)
  if (guardLoopback) app.use(loopbackGuard(version))
  app.get('/', async (_request, response) => {
    response.send(await renderHome(site))
  })
  app.get('/help', (_request, response) => {
    response.send(renderPage('help', helpPage(version)))
  })
  app.get('/assets/:file', sendStylesheet)
  app.get('/boards/:name', boardRoute(site, slow, 'board'))
  app.get('/boards/:name/line', boardRoute(site, slow, 'line'))
  app.get('/boards/:name/dielectric', boardRoute(site, slow, 'dielectric'))
  app.get('/boards/:name/compare', boardRoute(site, slow, 'compare'))
  app.get('/boards/:name/report', boardRoute(site, slow, 'report'))
  app.post(
    '/review',
    express.urlencoded({ extended: false, limit: MAX_BODY, parameterLimit: 5 }),
    async (request, response) => {
      const asked = { page: 'pasted', board: '', fields: typedFields(request.body) } as const
      await sendAnswer(site, asked, await makeSlowly(asked), response)
    },
  )
  app.use(unknownPage(site))
  app.use(failedRequest(site, onFault))
  return app
}
