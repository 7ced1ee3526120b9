import { networkInterfaces } from 'node:os'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, test } from 'vitest'
import {
  describePage,
  jsonPost,
  none,
  overflow,
  type Served,
  serve,
  smallTargets,
  soon,
  telephone,
  violations,
} from './harness.ts'

/** An address of this machine that is not its own loopback: what a tablet would call. */
const outside = Object.values(networkInterfaces())
  .flatMap((list) => list ?? [])
  .find((one) => !one.internal && one.family === 'IPv4')?.address

describePage('the pairing screen', false, (bench) => {
  const on = test.skipIf(outside === undefined)
  let open: Served
  let code = ''
  beforeAll(async () => {
    open = await serve('--lan')
    code = /\b\d{4} ?\d{4}\b/.exec(open.said)?.[0] ?? ''
  }, 60_000)
  afterAll(async () => {
    await open?.clear()
  })

  /** The page as a tablet on the network opens it. */
  const tablet = async (path: string, wishes = {}): Promise<Page> => {
    const context = await bench.browser.newContext({ viewport: telephone, hasTouch: true, ...wishes })
    const page = await context.newPage()
    await page.goto(`http://${outside}:${new URL(open.url).port}${path}`)
    return page
  }
  const field = (page: Page) => page.getByLabel('Pairing code')

  on(
    'asks for the code before it shows anything, and says what was wrong with a wrong one',
    async () => {
      const page = await tablet('/types')
      await field(page).fill(String((Number(code.replace(' ', '')) + 1) % 1e8).padStart(8, '0'))
      await page.getByRole('button', { name: 'Pair' }).tap()
      await page.getByText('This is not the code', { exact: false }).waitFor()
      await none(page.getByLabel('Number, or words of its use'))
      await soon(() => violations(page)).toEqual([])
      await page.emulateMedia({ colorScheme: 'dark' })
      await soon(() => violations(page)).toEqual([])
      await soon(() => overflow(page)).toBe(0)
      await soon(() => smallTargets(page)).toEqual([])
      await page.context().close()
    },
    60_000,
  )

  on(
    'opens the screen that was asked for, by keys alone, and hears of changes from then on',
    async () => {
      const page = await tablet('/drawer', { viewport: { width: 1280, height: 900 } })
      await soon(() => page.evaluate('document.activeElement?.tagName')).toBe('INPUT')
      await page.keyboard.type(` ${code} `)
      await page.keyboard.press('Enter')
      await page.getByText('Nothing lies in this drawer yet', { exact: false }).waitFor()
      await fetch(`${open.url}/api/demo`, jsonPost({}))
      await page.locator('.parts-body .parts-row').first().waitFor()
      await page.reload()
      await page.locator('.parts-body .parts-row').first().waitFor()
      await none(page.getByText('The server does not answer.'))
      await page.context().close()
    },
    60_000,
  )
})
