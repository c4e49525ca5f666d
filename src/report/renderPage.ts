import type { BoardPage } from './pages/boardPage.ts'
import type { ComparePage } from './pages/comparePage.ts'
import type { DielectricPage } from './pages/dielectricPage.ts'
import type { HelpPage } from './pages/helpPage.ts'
import type { HomePage } from './pages/homePage.ts'
import type { LinePage } from './pages/linePage.ts'
import type { MessagePage } from './pages/messagePage.ts'
import type { ProblemsPage } from './pages/problemsPage.ts'
import type { WaitingPage } from './pages/waitingPage.ts'
import { views } from './templates.ts'

/** Each page of the server and what it prints. */
export interface Pages {
  readonly home: HomePage
  readonly board: BoardPage
  readonly line: LinePage
  readonly dielectric: DielectricPage
  readonly compare: ComparePage
  readonly problems: ProblemsPage
  readonly help: HelpPage
  readonly message: MessagePage
  readonly waiting: WaitingPage
}

/** A complete HTML document that links its styles. */
export function renderPage<Name extends keyof Pages>(name: Name, model: Pages[Name]): string {
  return views().render(`pages/${name}`, model)
}
