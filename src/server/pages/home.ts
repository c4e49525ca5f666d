import { homePage } from '../../report/pages/homePage.ts'
import type { Paste } from '../../report/pages/homePage.ts'
import { renderPage } from '../../report/renderPage.ts'
import { listBoards } from '../listBoards.ts'
import type { Site } from '../page.ts'

/** Also after a pasted description that cannot be reviewed, with its text and problems. */
export async function renderHome(site: Site, paste?: Paste): Promise<string> {
  return renderPage('home', homePage(await listBoards(site), site.version, paste))
}
