import { execFile } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { promisify } from 'node:util'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { stageExampleYaml } from '#core/stage'
import { describePage, focused, none, overflow, smallTargets, soon, telephone, textOf, violations } from './harness.ts'

const root = join(import.meta.dirname, '..', '..')

const part = (page: Page) => page.getByRole('region', { name: 'What could stand in here', exact: true })
const begin = (page: Page) => part(page).getByRole('button', { name: 'Find what could stand in here' })
const candidates = (page: Page) => part(page).locator('.candidates > li')
const summary = (page: Page, name: string) =>
  candidates(page)
    .filter({ has: page.getByText(name, { exact: true }) })
    .locator('summary')
const verdict = (page: Page) => page.getByRole('region', { name: 'Verdict' })

/** Waits for the end of a search; it plays hundreds of parts. */
const found = (page: Page): Promise<void> => candidates(page).first().waitFor({ timeout: 45_000 })

/** Shows all candidates there are. */
async function showAll(page: Page): Promise<void> {
  const more = part(page).getByRole('button', { name: /^Show / })
  while ((await more.count()) > 0) await more.click()
}

interface Told {
  readonly candidates: readonly {
    readonly name: string
    readonly standing: string
    readonly stage?: { readonly changes?: readonly { readonly ref: string; readonly to: number }[] }
  }[]
}

/** What the command line says of the same position. */
async function told(book: string): Promise<Told> {
  const file = join(book, '..', 'position.yaml')
  writeFileSync(file, stageExampleYaml)
  const args = [join(root, 'bin/germane.mjs'), 'standin', '--position', file, '--book', book, '--json']
  const { stdout } = await promisify(execFile)(process.execPath, args, { maxBuffer: 1e8 })
  return JSON.parse(stdout) as Told
}

describePage('stand-ins for a position', true, (bench) => {
  test('by mouse: found on a button as the command line finds them, opened, and seen in the stage', async () => {
    const page = await bench.open('/stage')
    await begin(page).click()
    await found(page)
    await showAll(page)
    const same = await told(bench.served.book)
    expect(same.candidates.length).toBeGreaterThan(10)
    expect(await part(page).locator('.candidate-name').allTextContents()).toEqual(same.candidates.map((c) => c.name))
    const [change] = same.candidates.find((c) => c.name === 'BC557')?.stage?.changes ?? []
    expect(change?.ref).toBe('R2')
    const to = new RegExp(`^${change!.to / 1000}\\s?kΩ$`)
    await soon(() => textOf(summary(page, 'BC557'))).toMatch(/with care.*with R2 /)
    await summary(page, 'BC557').click()
    await page.getByRole('table', { name: 'Margins of BC557' }).waitFor()
    await part(page)
      .getByRole('img', { name: /^Leads of BC557 for OC71/ })
      .waitFor()
    const row = page.getByRole('table', { name: 'Resistors BC557 needs' }).getByRole('row').nth(1)
    await soon(() => textOf(row.locator('td').last())).toMatch(to)
    await part(page).getByRole('button', { name: 'See the stage with BC557' }).click()
    await soon(() => textOf(verdict(page))).toMatch(/BC557:/)
    await soon(() => page.getByLabel('Part type').inputValue()).toBe('BC557')
    await page.getByRole('button', { name: 'Find the least change for BC557' }).click()
    await page.getByText('The least change, from E24').waitFor()
    const after = page.getByRole('region', { name: 'Resistors before and after' }).getByRole('row').nth(1)
    await soon(() => textOf(after.locator('td').last())).toMatch(to)
    // what was found stays while one looks at its parts, and goes with another value
    expect(await candidates(page).count()).toBe(same.candidates.length)
    await page.getByRole('textbox', { name: /^R2 / }).fill('5.6k')
    await begin(page).waitFor()
    expect(await candidates(page).count()).toBe(0)
  }, 120_000)

  test('sliders answer while it looks; it is stopped, and asks for less where one says how the part is used', async () => {
    const page = await bench.open('/stage')
    await page.getByRole('combobox', { name: /^Stage/ }).selectOption('push-pull-diode')
    await page.getByText('AC128', { exact: true }).first().waitFor()
    await begin(page).click()
    await part(page).getByRole('progressbar', { name: 'Looking for stand-ins' }).waitFor()
    const air = page.getByRole('slider', { name: 'Air' })
    await air.focus()
    await page.keyboard.press('ArrowRight')
    await soon(() => air.getAttribute('aria-valuetext')).toBe('26 °C')
    await part(page).getByRole('button', { name: 'Stop' }).click()
    await part(page).getByText('Stopped.').waitFor()
    expect(await candidates(page).count()).toBe(0)
    await page.getByRole('combobox', { name: /^Stage/ }).selectOption('divider')
    await begin(page).click()
    await found(page)
    await part(page).getByText('What is asked for, and how it is used').click()
    const asked = part(page).getByRole('table', { name: 'What a stand-in for OC71 must have' })
    const voltage = part(page).getByLabel('Voltage it stands')
    await voltage.fill('5 V')
    await voltage.press('Enter')
    await soon(() => textOf(asked.getByRole('row').first())).toMatch(/voltage.*5.V.*as you asked/)
  }, 120_000)

  test('by keys alone: the button, a candidate, the stage with it', async () => {
    const page = await bench.open('/stage')
    await begin(page).focus()
    await page.keyboard.press('Enter')
    await found(page)
    const name = (await candidates(page).first().locator('.candidate-name').textContent())!
    await part(page).locator('.stand-ins-asked > summary').focus()
    await page.keyboard.press('Tab')
    await soon(() => focused(page)).toContain(name)
    await page.keyboard.press('Enter')
    await page.getByRole('table', { name: `Margins of ${name}` }).waitFor()
    await page.keyboard.press('Tab')
    await soon(() => focused(page)).toBe(`See the stage with ${name}`)
    await page.keyboard.press('Enter')
    await soon(() => textOf(verdict(page))).toContain(`${name}:`)
  }, 90_000)

  test('a position of a job has them too', async () => {
    const page = await bench.open('/jobs/1')
    await page.goto(`${bench.served.url}/stage?job=1&ref=Q4`)
    await begin(page).click()
    await found(page)
    await candidates(page).first().locator('summary').click()
    await part(page)
      .getByRole('button', { name: /^See the stage with / })
      .waitFor()
  }, 90_000)

  test('what stood there has to be named first', async () => {
    const page = await bench.open('/stage')
    await begin(page).waitFor()
    await page.getByRole('combobox', { name: /^Q1 / }).fill('')
    await part(page).getByText('Name above what stood at Q1').waitFor()
    await none(begin(page))
  }, 60_000)

  test.each(['light', 'dark'] as const)(
    'breaks no rule of access, %s, nor at 390 px',
    async (look) => {
      const page = await bench.open('/stage', { look })
      await begin(page).click()
      await found(page)
      await showAll(page)
      await summary(page, 'BC557').click()
      await page.getByRole('table', { name: 'Resistors BC557 needs' }).waitFor()
      await part(page).getByText('What is asked for, and how it is used').click()
      expect(await violations(page)).toEqual([])
      expect(await overflow(page)).toBe(0)
      await page.setViewportSize(telephone)
      expect(await overflow(page)).toBe(0)
      expect(await smallTargets(page)).toEqual([])
      expect(await violations(page)).toEqual([])
    },
    90_000,
  )
})
