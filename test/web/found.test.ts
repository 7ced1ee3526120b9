import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, focused, overflow, smallTargets, soon, telephone, violations } from './harness.ts'

const lineOf = (page: Page, part: string) =>
  page.locator('.found-line').filter({ has: page.getByLabel(`Measured of ${part}`, { exact: true }) })

const rangeOf = (page: Page, range: string) =>
  page.locator('.found-ranges tbody tr').filter({ has: page.getByRole('rowheader', { name: range, exact: true }) })

/** Types the filled sheet that stands with the examples. */
async function typeExample(page: Page): Promise<void> {
  const text = readFileSync(join(import.meta.dirname, '../../examples/found.csv'), 'utf8')
  for (const line of text.trim().split('\n').slice(1)) {
    const [part, measured, accuracy] = line.split(',')
    await page.getByLabel(`Measured of ${part}`, { exact: true }).fill(measured!)
    await page.getByLabel(`Accuracy of ${part}`, { exact: true }).fill(accuracy!)
  }
}

describePage('a tester as found', false, (bench) => {
  test('by keys alone: each part judged as it is typed, and all of it there after a reload', async () => {
    const page = await bench.open('/testers/larkfield')
    await page.getByRole('link', { name: 'As found' }).focus()
    await page.keyboard.press('Enter')
    await page.getByLabel('Measured of movement', { exact: true }).focus()
    await soon(() => page.locator('.found-how').textContent()).toContain('Current through the movement alone')
    for (const typed of ['99.4 uA', '0.2 uA', '1,1 kohm']) {
      await page.keyboard.type(typed)
      await page.keyboard.press('Enter')
    }
    expect(await focused(page)).toBe('Accuracy of coil')
    await page.keyboard.press('Shift+Enter')
    expect(await focused(page)).toBe('Measured of coil')
    await soon(() => lineOf(page, 'movement').textContent()).toContain('conforms')
    await soon(() => lineOf(page, 'coil').textContent()).toContain('conforms')
    await page.getByText('Taken as exact, since no accuracy of the meter is given: coil.').waitFor()

    await page.getByLabel('Accuracy of leads', { exact: true }).focus()
    await page.keyboard.press('Enter')
    await soon(() => focused(page)).toContain('Ranges')

    await page.reload()
    await soon(() => page.getByLabel('Measured of coil', { exact: true }).inputValue()).toBe('1,1 kohm')
    await page.getByText('Of 2 measured, 2 conform, 0 do not, 0 undecided.').waitFor()
    await page.getByRole('button', { name: 'Empty the sheet' }).click()
    await page.getByText('Nothing is measured yet: this is what the tolerances alone allow.').waitFor()
  }, 60_000)

  // the numbers are those the command line prints for this sheet, which docs/how-to/as-found.md holds
  test('the filled sheet of the examples: verdicts, ranges before and after, mends', async () => {
    const page = await bench.open('/testers/larkfield?found=1')
    await typeExample(page)
    await page.getByText('Of 14 measured, 8 conform, 6 do not, 0 undecided.').waitFor()
    expect(await lineOf(page, 'shunt 10 mA').textContent()).toMatch(/does not conform \+8\.90\s% on 10\smA/)
    expect(await lineOf(page, 'multiplier 1 V').textContent()).toMatch(/conforms −0\.30\s% on 1\sV/)
    expect(await rangeOf(page, '10 mA').textContent()).toMatch(/\+9\.16\s±\s1\.29\s%\+0\.23\s±\s1\.67\s%/)
    expect(await rangeOf(page, '1 A').textContent()).toMatch(/\+8\.53\s±\s0\.90\s%\+1\.23\s±\s2\.40\s%/)
    const mend = page.locator('.found-mends > div').filter({ hasText: 'shunt 10 mA' })
    expect(await mend.textContent()).toMatch(/11\sΩ of 0\.125\sW in series with 100\smΩ of 0\.125\sW/)
    const contact = page.locator('.found-leads tbody tr').filter({ hasText: /^3\sA/ })
    expect(await contact.textContent()).toMatch(/^3\sA\+3\.28\s%\+2\.74\s%140\smV$/)
    // the dot after mending lies nearer to nothing than the one before
    const across = async (dot: string): Promise<number> =>
      (await rangeOf(page, '10 mA').locator(`.found-dot.${dot}`).boundingBox())!.x
    expect(await across('before')).toBeGreaterThan((await across('after')) + 50)
    await page.getByLabel('Resistors at hand, 1 %').selectOption('E96')
    const other = page.locator('.found-mends > div').filter({ hasText: 'multiplier 10 V' })
    await soon(() => other.textContent()).toMatch(/97\.6\skΩ of 0\.125\sW in series with 1\.3\skΩ/)
  }, 60_000)

  test('what cannot be read is said beside its field, with the mend', async () => {
    const page = await bench.open('/testers/larkfield?found=1')
    const field = page.getByLabel('Measured of shunt 1 mA', { exact: true })
    await field.fill('122.3')
    await soon(() => lineOf(page, 'shunt 1 mA').textContent()).toContain('“122.3” has no unit. Write the unit with it')
    expect(await field.getAttribute('aria-invalid')).toBe('true')
    await field.fill('122.3 ohm')
    await page.getByLabel('Accuracy of shunt 1 mA', { exact: true }).fill('about')
    await soon(() => lineOf(page, 'shunt 1 mA').textContent()).toContain('Write it as 0.5 %, 20 mohm')
    expect(await field.getAttribute('aria-invalid')).toBe('false')
  })

  for (const look of ['light', 'dark'] as const)
    test(`breaks no rule of access, ${look}, nor at 390 px`, async () => {
      const page = await bench.open('/testers/larkfield?found=1', { look })
      await typeExample(page)
      await page.getByLabel('Measured of shunt 1 mA', { exact: true }).fill('122.3')
      expect(await violations(page)).toEqual([])
      await page.setViewportSize(telephone)
      expect(await overflow(page)).toBe(0)
      expect(await violations(page)).toEqual([])
      expect(await smallTargets(page)).toEqual([])
    }, 60_000)
})

describePage('trouble with a tester', false, (bench) => {
  test('by keys alone: an open shunt is suspected first, and what was said is there after a reload', async () => {
    const page = await bench.open('/testers/larkfield?trouble=1')
    await page.getByText('Say first what you saw').waitFor()
    await page.getByLabel('Seen at 10 mA', { exact: true }).focus()
    await page.keyboard.type('pegged')
    await page.getByRole('heading', { name: /^Look next at/ }).waitFor()
    await page.getByRole('button', { name: 'All other ranges are right' }).focus()
    await page.keyboard.press('Enter')
    const first = page.locator('.suspects > li').first()
    await soon(() => first.textContent()).toMatch(/shunt 10\smA is open/)
    await page.getByText('The first 2 are a tie').waitFor()
    await page.reload()
    await soon(() => first.textContent()).toMatch(/shunt 10\smA is open/)
    await page.getByRole('button', { name: 'Begin anew' }).click()
    await page.getByText('Say first what you saw').waitFor()
  }, 60_000)

  test('a number in place of a word, and one that cannot be read', async () => {
    const page = await bench.open('/testers/larkfield?trouble=1')
    await page.getByLabel('Seen at 10 mA', { exact: true }).selectOption('a number')
    const number = page.getByLabel('Off by, 10 mA', { exact: true })
    await number.fill('a lot')
    await page.getByText(/which is nothing that is seen there/).waitFor()
    await number.fill('+9 %')
    await page.getByRole('button', { name: 'All other ranges are right' }).click()
    // as the command line has it: 15 % for the shunt itself
    const shunt = page.locator('.suspects > li').filter({ hasText: /shunt 10\smA has drifted, about \+7\.9\s%/ })
    await soon(() => shunt.textContent()).toMatch(/^215\s%/)
  })

  for (const look of ['light', 'dark'] as const)
    test(`breaks no rule of access, ${look}, nor at 390 px`, async () => {
      const page = await bench.open('/testers/larkfield?trouble=1', { look })
      await page.getByLabel('Seen at rest', { exact: true }).selectOption('a number')
      await page.getByLabel('Seen at 10 mA', { exact: true }).selectOption('pegged')
      await page.getByRole('heading', { name: /^Look next at/ }).waitFor()
      expect(await violations(page)).toEqual([])
      await page.setViewportSize(telephone)
      expect(await overflow(page)).toBe(0)
      expect(await violations(page)).toEqual([])
      expect(await smallTargets(page)).toEqual([])
    }, 60_000)
})
