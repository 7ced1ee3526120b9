import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import {
  describePage,
  jsonPost,
  none,
  overflow,
  type PageBench,
  soon,
  telephone,
  textOf,
  violations,
} from './harness.ts'

async function part(bench: PageBench, tag: string, wishes = {}): Promise<Page> {
  const page = await bench.open(`/parts/${encodeURIComponent(tag)}`, wishes)
  await page.locator('.result, .part-nothing, .doubt').first().waitFor()
  return page
}

interface Story {
  readonly part: { readonly place?: string; readonly note?: string; readonly status: string }
  readonly photos: readonly { readonly name: string }[]
  readonly runs: readonly { readonly run: { readonly id: number } }[]
}

const story = async (bench: PageBench, tag: string): Promise<Story> =>
  (await (await fetch(`${bench.served.url}/api/parts/${tag}`)).json()) as Story

/** The smallest PNG there is: one pixel. */
const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
)

describePage('a part', true, (bench) => {
  test('shows its parameters with verdicts, and opens the working of each', async () => {
    const page = await part(bench, 'OP-6')
    await soon(() => textOf(page.locator('.part-head .lead'))).toContain('undecided')
    const gain = page.locator('.result', { hasText: 'gain less leakage' }).first()
    await soon(() => textOf(gain)).toContain('limit 40 to 200')
    await gain.locator('summary', { hasText: 'Working' }).click()
    await gain.locator('.eq').first().waitFor()
    await soon(() => page.locator('.eq .frac').count()).toBeGreaterThan(0)
    await soon(() => gain.locator('.eq sub').count()).toBeGreaterThan(2)
    await soon(() => gain.locator('.budget .bar rect').count()).toBeGreaterThan(1)
    await soon(() => gain.locator('.eq-source').first().textContent()).not.toBe('')
    await page.locator('.figure svg .allowed').first().waitFor()
  }, 60_000)

  test('shows the temperature, and values brought to 25 °C', async () => {
    const page = await part(bench, 'OP-4')
    const leakage = page.locator('.result', { hasText: 'leakage, base open' })
    const before = await leakage.locator('.result-value').textContent()
    await soon(() => textOf(leakage)).toContain('room at 21.0')
    await page.getByText('at 25 °C', { exact: true }).click()
    await soon(() => textOf(leakage)).toContain('brought to 25 °C')
    await soon(() => leakage.locator('.result-value').textContent()).not.toBe(before)
  }, 60_000)

  test('a short part says that nothing else was read', async () => {
    const page = await part(bench, 'OP-5')
    await soon(() => textOf(page.locator('.part-head .lead'))).toContain('short')
    await none(page.locator('.result'))
  }, 60_000)

  test('place, status and note are kept, and undone', async () => {
    const page = await part(bench, 'OP-7')
    await page.getByLabel('Place').fill('tray 2')
    await page.keyboard.press('Enter')
    await soon(async () => (await story(bench, 'OP-7')).part.place).toBe('tray 2')
    await page.getByRole('button', { name: 'Undo' }).first().click()
    await soon(async () => (await story(bench, 'OP-7')).part.place).toBe('drawer 3')
    await page.getByLabel('Status').selectOption('good')
    await page.getByLabel('Note').fill('<b>quiet</b> and steady')
    await page.getByLabel('Place').focus()
    await soon(async () => (await story(bench, 'OP-7')).part.note).toBe('<b>quiet</b> and steady')
    expect((await story(bench, 'OP-7')).part.status).toBe('good')
  }, 60_000)

  test('what is half typed is kept where one goes back by the browser, or closes the page', async () => {
    const page = await bench.open('/drawer')
    await page.getByRole('link', { name: 'OP-9', exact: true }).click()
    await page.locator('h1', { hasText: 'OP-9' }).waitFor()
    await page.getByLabel('Place').fill('tray 7')
    await page.goBack()
    await page.locator('h1', { hasText: 'Drawer' }).waitFor()
    await soon(async () => (await story(bench, 'OP-9')).part.place).toBe('tray 7')
    await page.goForward()
    await page.locator('h1', { hasText: 'OP-9' }).waitFor()
    await page.getByLabel('Note').fill('gate of the regulator,\nto be looked at')
    await page.reload()
    await soon(async () => (await story(bench, 'OP-9')).part.note).toBe('gate of the regulator,\nto be looked at')
    await soon(() => page.getByLabel('Note').inputValue()).toContain('to be looked at')
  }, 60_000)

  test('a reading is corrected, the old one stays to be seen, and the number follows', async () => {
    const page = await part(bench, 'OP-8', { expected: [/400/] })
    const gain = page.locator('.result').filter({ hasText: 'current gain' }).first().locator('.result-value')
    const before = await gain.textContent()
    const row = page.locator('.readings tbody tr').filter({ hasText: '210' })
    await row.getByRole('button', { name: /Correct/ }).click()
    await page.getByLabel('Correct h_FE').fill('no number')
    await page.keyboard.press('Enter')
    await page.locator('.correct .field-fault').waitFor()
    await page.getByLabel('Correct h_FE').fill('251')
    await page.keyboard.press('Enter')
    await page.locator('.readings del', { hasText: '210' }).waitFor()
    await soon(() => gain.textContent()).not.toBe(before)
  }, 60_000)

  test('a photo is kept in the book and can be taken away; anything else is refused', async () => {
    const page = await part(bench, 'OP-1')
    await page
      .locator('input[type=file][accept*=image]')
      .setInputFiles({ name: 'case "top".png', mimeType: 'image/png', buffer: png })
    await page.locator('.photos img').waitFor()
    await page.locator('.photos img').scrollIntoViewIfNeeded()
    await soon(async () => await page.evaluate(`document.querySelector('.photos img').naturalWidth`)).toBe(1)
    expect((await story(bench, 'OP-1')).photos.map((p) => p.name)).toEqual(['case "top".png'])
    await page
      .locator('input[type=file][accept*=image]')
      .setInputFiles({ name: 'a.svg', mimeType: 'image/svg+xml', buffer: png })
    await soon(() => textOf(page.locator('.field-fault'))).toContain('no picture the book takes')
    await page.getByRole('button', { name: 'Take away' }).click()
    await page.locator('.photos img').waitFor({ state: 'detached' })
  }, 60_000)

  test('runs lie over each other, and any of them can be looked at', async () => {
    const run = await secondRun(bench, 'OP-2')
    const page = await part(bench, 'OP-2')
    const history = page.locator('section', { hasText: 'Through its runs' })
    await history.locator('svg').first().waitFor()
    await soon(() => textOf(history)).toContain(`run ${run}`)
    await page.getByRole('combobox', { name: 'of run' }).selectOption('1')
    await soon(() => textOf(page.locator('.readings'))).toContain('0.8 div')
  }, 60_000)

  test('by keys alone: on to the next part and back, and a working opened', async () => {
    const page = await part(bench, 'OP-1')
    await page.keyboard.press('n')
    await page.locator('h1', { hasText: 'OP-2' }).waitFor()
    await page.keyboard.press('p')
    await page.locator('h1', { hasText: 'OP-1' }).waitFor()
    await page.locator('summary', { hasText: 'Working' }).first().focus()
    await page.keyboard.press('Enter')
    await page.locator('.working').first().waitFor()
  }, 60_000)

  test.each(['light', 'dark'] as const)(
    'axe finds nothing, %s',
    async (look) => {
      const page = await part(bench, 'OP-6', { look })
      await page.locator('summary', { hasText: 'Working' }).nth(1).click()
      expect(await violations(page)).toEqual([])
      // No script runs in the frame of a report, axe's neither: another page stands in for it.
      const report = await bench.open('/report', { look })
      expect(await violations(report)).toEqual([])
      const body =
        '<!doctype html><html lang="en"><title>Report</title><main aria-label="The report"><h1>Report</h1></main></html>'
      await report.route('**/api/report?*', (r) => r.fulfill({ contentType: 'text/html', body }))
      await report.getByRole('link', { name: 'orrin-point' }).click()
      await report.frameLocator('iframe').locator('h1').waitFor()
      expect(await violations(report)).toEqual([])
    },
    60_000,
  )

  test('at 390 px nothing sticks out', async () => {
    const page = await part(bench, 'OP-4', telephone)
    await page.locator('summary', { hasText: 'Working' }).nth(1).tap()
    expect(await overflow(page)).toBeLessThanOrEqual(0)
    const report = await bench.open('/report?part=OP-4', telephone)
    expect(await overflow(report)).toBeLessThanOrEqual(0)
  }, 60_000)
})

/** Takes a short second run of a part, by the server's own routes. */
async function secondRun(bench: PageBench, tag: string): Promise<number> {
  const post = async (path: string, body: unknown) =>
    (await (await fetch(`${bench.served.url}${path}`, jsonPost(body))).json()) as {
      readonly run: { readonly id: number }
    }
  const { run } = await post('/api/runs', { tester: 'larkfield', type: '2N1305' })
  for (const [step, seen] of [
    ['short', 'clear'],
    ['i-cbo', '1.3 div'],
    ['i-ceo', '1.2 div'],
    ['i-c-1', '50 div'],
    ['h-fe-1', '84'],
  ])
    await post(`/api/runs/${run.id}/readings`, { clientId: `second-${step}`, part: tag, step, seen })
  await post(`/api/runs/${run.id}/end`, {})
  return run.id
}

describePage('a report', true, (bench) => {
  test('of a part: shown, with workings as wished, to print and to save', async () => {
    const page = await bench.open('/report?part=OP-3')
    const frame = page.frameLocator('iframe')
    await frame.locator('h1', { hasText: 'OP-3' }).waitFor()
    await soon(() => frame.locator('details[open]').count()).toBeGreaterThan(0)
    await page.locator('.report-bar label', { hasText: 'none' }).click()
    await frame.locator('h1').waitFor()
    await soon(async () => await frame.locator('details').count()).toBe(0)
    await soon(() => page.getByRole('button', { name: 'Print' }).isEnabled()).toBe(true)
    const [saved] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name: 'Save' }).click()])
    expect(saved.suggestedFilename()).toMatch(/\.html$/)
  }, 60_000)

  test('of a lot, and of what was chosen in the drawer', async () => {
    const page = await bench.open('/report')
    await page.getByRole('link', { name: 'orrin-point' }).click()
    await page.frameLocator('iframe').locator('h1').waitFor()
    await soon(() => textOf(page.frameLocator('iframe').locator('body'))).toContain('OP-14')
    await page.goto(`${bench.served.url}/drawer`)
    await page.locator('.parts-body .parts-row').nth(0).click()
    await page.locator('.parts-body .parts-row').nth(2).click()
    await page.locator('.selection-bar').getByRole('link', { name: 'Report' }).click()
    const chosen = page.frameLocator('iframe').locator('body')
    await chosen.locator('h1').waitFor()
    await soon(() => textOf(chosen)).toContain('OP-3')
    await soon(() => textOf(chosen)).toContain('OP-1')
    expect(await chosen.textContent()).not.toContain('OP-9')
  }, 60_000)
})
