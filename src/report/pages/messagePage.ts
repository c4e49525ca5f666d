import type { PageFrame } from './pageFrame.ts'

/** A page with one thing to say: not found, too large, failed. */
export interface MessagePage {
  readonly page: PageFrame
  readonly heading: string
  readonly text: string
}

const MESSAGES = {
  unknownBoard: [
    'There is no such board',
    'No description of that name is in the folder that is served. It may have been renamed or moved.',
  ],
  unknownPage: [
    'There is no such page',
    'The address leads nowhere here. The boards and the help can be reached from the links above.',
  ],
  tooLarge: [
    'The description is too large',
    'Not more than 12 MB can be sent. A ball map can stay in a file of its own beside the description in the folder that is served.',
  ],
  badRequest: [
    'The request cannot be read',
    'The address or the form that was sent is not well formed. Nothing was changed.',
  ],
  foreignHost: [
    'This address is not served',
    'The request names a host that is not this machine. Open the pages by the address that was printed at start.',
  ],
  failed: [
    'Something went wrong here',
    'This is a fault of the program and not of the description. Nothing was changed. The terminal that serves these pages shows the details.',
  ],
} as const

export type MessageName = keyof typeof MESSAGES

export function messagePage(name: MessageName, version: string): MessagePage {
  const [heading, text] = MESSAGES[name]
  return { page: { pageTitle: heading, version, board: null }, heading, text }
}
