import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { curveExampleCsv } from '#core/fit'
import { describePage, jsonPost, overflow, type PageBench, soon, telephone, violations } from './harness.ts'

/** Keeps a curve of a part, as another window would. */
const keep = (bench: PageBench, tag: string, text: string, more: object = {}): Promise<Response> =>
  fetch(`${bench.served.url}/api/parts/${tag}/curves`, jsonPost({ text, file: `${tag}.csv`, ...more }))

/** The example of a diode with every current greater by a factor. */
const scaled = (factor: number): string =>
  curveExampleCsv.diode.replaceAll(/^([\d.]+),(.+)$/gm, (_, v: string, i: string) => `${v},${Number(i) * factor}`)

const curvesOf = (page: Page) => page.locator('section', { has: page.getByRole('heading', { name: 'Curves' }) })

describePage('curves', true, (bench) => {
  test('are taken into the book on the page of their part; what is no curve is refused', async () => {
    const page = await bench.open('/parts/OP-1', { expected: [/400/] })
    const section = curvesOf(page)
    await soon(() => section.textContent()).toContain('No curve of OP-1 is in the book yet.')
    const input = section.locator('input[type=file]')
    await input.setInputFiles({ name: 'odd.csv', mimeType: 'text/csv', buffer: Buffer.from('a,b\n1,2\n') })
    await soon(() => section.getByRole('alert').textContent()).toContain('odd.csv: "a, b" are no columns of a curve')
    await section.getByLabel('Temperature of the part').fill('23')
    await input.setInputFiles({ name: 'Q.csv', mimeType: 'text/csv', buffer: Buffer.from(curveExampleCsv.bjt) })
    await section.locator('svg.plot .point').last().waitFor()
    await soon(() => section.locator('figcaption').first().textContent()).toContain('Q.csv, 23 °C')
    await section.getByText('output family', { exact: true }).click()
    await soon(() => section.locator('svg.plot').first().textContent()).toContain('Collector-emitter voltage')
  }, 60_000)

  test('are fitted where asked: law with its interval, parameters, and a card to copy', async () => {
    await keep(bench, 'OP-2', curveExampleCsv.diode, { temperatureC: 23 })
    const page = await bench.open('/parts/OP-2')
    const section = curvesOf(page)
    await section.getByLabel('fit its law').check()
    await section.locator('.curve-fit .swath').first().waitFor()
    const row = section.locator('.curve-parameters tr', { hasText: 'n' }).filter({ hasText: '1.7' })
    await soon(() => row.count()).toBeGreaterThan(0)
    await section.locator('summary', { hasText: 'Card for simulators' }).click()
    const card = await section.getByLabel('Model card').inputValue()
    expect(card).toMatch(/^\.model OP_2 D\(/im)
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
    await section.getByRole('button', { name: 'Copy the card' }).click()
    await soon(() => section.textContent()).toContain('The card is copied.')
    expect(await page.evaluate('navigator.clipboard.readText()')).toBe(card)
  }, 60_000)

  test('of parts chosen in the drawer lie over each other, with their differences', async () => {
    await keep(bench, 'OP-3', scaled(1))
    await keep(bench, 'OP-4', scaled(1.2))
    const page = await bench.open('/drawer')
    for (const tag of ['OP-3', 'OP-4', 'OP-6'])
      await page.locator('.cell-choose', { has: page.getByLabel(`Choose ${tag}`, { exact: true }) }).click()
    await page.getByRole('link', { name: 'Curves' }).click()
    await page.locator('h1', { hasText: 'Curves' }).waitFor()
    await soon(() => page.locator('svg.plot .line.s1').count()).toBeGreaterThan(0)
    await soon(() => page.locator('main').textContent()).toContain('Without a curve of a diode: OP-6.')
    await page.getByLabel('show how far each is from OP-3').check()
    await soon(() => page.locator('svg.plot').textContent()).toContain('Difference in forward current, %')
  }, 60_000)

  test('the screen says what to do where nothing was chosen', async () => {
    const page = await bench.open('/curves')
    await soon(() => page.locator('main').textContent()).toContain('Choose parts in the drawer and press Curves.')
  }, 60_000)

  test.each(['light', 'dark'] as const)(
    'nothing bars anyone, %s, wide and on a telephone',
    async (look) => {
      await keep(bench, 'OP-7', curveExampleCsv.bjt)
      for (const size of [{ width: 1280, height: 900 }, telephone]) {
        const page = await bench.open('/parts/OP-7', { look, ...size })
        await curvesOf(page).getByLabel('fit its law').check()
        await curvesOf(page).locator('.curve-fit .swath').first().waitFor()
        await curvesOf(page).locator('summary', { hasText: 'held' }).click()
        await curvesOf(page).locator('summary', { hasText: 'Card' }).click()
        expect(await violations(page)).toEqual([])
        expect(await overflow(page)).toBe(0)
      }
    },
    90_000,
  )
})
