import type { RequestHandler } from 'express'
import { homePage } from '../../report/pages/homePage.ts'
import type { Paste } from '../../report/pages/homePage.ts'
import { renderPage } from '../../report/renderPage.ts'
import { listBoards } from '../listBoards.ts'
import type { Site } from '../createApp.ts'

export function showHome(site: Site): RequestHandler {
  return async (_request, response) => {
    response.send(await renderHome(site))
  }
}

/** Also after a pasted description that cannot be reviewed, with its text and problems. */
export async function renderHome({ shelf, version }: Site, paste?: Paste): Promise<string> {
  return renderPage('home', homePage(await listBoards(shelf), version, paste))
}
