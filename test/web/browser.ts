import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

/** Where a browser may be; `CHROMIUM` names another one. */
const candidates = [
  process.env.CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
]

export const browserFile = candidates.find((file): file is string => file !== undefined && existsSync(file))

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

export const launchBrowser = (): Promise<Browser> =>
  chromium.launch({ ...(browserFile === undefined ? {} : { executablePath: browserFile }), args: flags })
