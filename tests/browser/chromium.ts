import { existsSync } from 'node:fs'
import { chromium } from 'playwright-core'
import type { Browser } from 'playwright-core'

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']

/** Where a Chromium is installed; undefined where there is none, and the tests that need it are left out. */
export const CHROMIUM = PLACES.find((place) => existsSync(place))

const QUIET = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

export function launch(): Promise<Browser> {
  return chromium.launch({ executablePath: CHROMIUM ?? '', args: QUIET })
}
