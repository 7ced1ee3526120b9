import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, focused, overflow, smallTargets, soon, telephone, textOf, violations } from './harness.ts'

const part = (page: Page) => page.getByRole('region', { name: 'Stand-ins' })
const candidates = (page: Page) => part(page).locator('.candidates > li')
const summary = (page: Page, name: string) =>
  candidates(page)
    .filter({ has: page.getByText(name, { exact: true }) })
    .locator('summary')

describePage('stand-ins of a type', true, (bench) => {
  test('are listed with their margins; one opens to every reason and to the drawing of its leads', async () => {
    const page = await bench.open('/types/OC71')
    await summary(page, '2N525').waitFor()
    await soon(() => textOf(summary(page, '2N525'))).toMatch(/2N525stands in, leads bent.*hFE 1\.1.*hFE most 1\.2/)
    await summary(page, '2N525').click()
    const table = page.getByRole('table', { name: 'Margins of 2N525' })
    await soon(() => textOf(table.getByRole('row').nth(1))).toMatch(/collector-base voltage.*30.V.*45.V.*1\.5/)
    await part(page).locator('.candidate-says').getByText('bend the leads into a line').waitFor()
    await part(page)
      .getByRole('img', { name: /^Leads of 2N525 for OC71/ })
      .waitFor()
    expect(await violations(page)).toEqual([])
    expect(await overflow(page)).toBe(0)
  })

  test('parts of the drawer are among them', async () => {
    const page = await bench.open('/types/2N1305')
    const own = summary(page, 'OP-6')
    await own.waitFor()
    await soon(() => textOf(own)).toContain('this part, 2N1305')
    await own.click()
    await part(page).getByRole('link', { name: 'Look at OP-6' }).click()
    await page.getByRole('heading', { level: 1, name: 'OP-6' }).waitFor()
  })

  test('ask for less where one says how the part is used; nonsense is said with its mend', async () => {
    const page = await bench.open('/types/2N404')
    await part(page).getByText('What is asked for, and how it is used').click()
    const asked = part(page).getByRole('table', { name: 'What a stand-in for 2N404 must have' })
    await soon(() => textOf(asked.getByRole('row').first())).toMatch(/voltage.*24.V.*as 2N404 has/)
    const voltage = part(page).getByLabel('Voltage it stands')
    await voltage.fill('9 mA')
    await voltage.press('Enter')
    await part(page).getByText('is a current, not a voltage', { exact: false }).waitFor()
    expect(await violations(page)).toEqual([])
    await voltage.fill('9')
    await voltage.press('Enter')
    await soon(() => textOf(asked.getByRole('row').first())).toMatch(/voltage.*9.V.*as you asked/)
    await summary(page, '2N1305').waitFor()
  })

  test('no candidate: the nearest, and by what it fails', async () => {
    const page = await bench.open('/types/1N5408')
    await part(page).getByText('No candidate.').waitFor()
    await soon(() => textOf(part(page))).toMatch(/The nearest is 1N5407: it fails by VR 800 V where 1 kV is needed/)
  })

  test('a mark of how a type can be had stands beside it where it stands in', async () => {
    const page = await bench.open('/types/2N525')
    await part(page).getByText('What is asked for, and how it is used').click()
    await part(page).getByLabel('How 2N525 itself can be had').selectOption('scarce')
    await soon(() => part(page).getByLabel('How 2N525 itself can be had').inputValue()).toBe('scarce')
    await page.goto(`${bench.served.url}/types/OC71`)
    await soon(() => textOf(summary(page, '2N525'))).toContain('scarce')
  })

  test('by keyboard alone: on to a candidate, open it, go where it leads', async () => {
    const page = await bench.open('/types/BC107')
    await summary(page, 'BC546').waitFor()
    await part(page).locator('.stand-ins-asked > summary').focus()
    await page.keyboard.press('Tab')
    await soon(() => focused(page)).toMatch(/^BC546/)
    await page.keyboard.press('Enter')
    await page.getByRole('table', { name: 'Margins of BC546' }).waitFor()
    await page.keyboard.press('Tab')
    await soon(() => focused(page)).toBe('Look at BC546')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'BC546' }).waitFor()
  })

  test.each(['light', 'dark'] as const)(
    'on a telephone, %s: nothing sideways, nothing too small to touch',
    async (look) => {
      const page = await bench.open('/types/BC557', { ...telephone, look })
      await candidates(page).first().waitFor()
      await candidates(page).first().locator('summary').click()
      await part(page).getByRole('table').waitFor()
      await part(page).getByText('What is asked for, and how it is used').click()
      expect(await overflow(page)).toBe(0)
      expect(await smallTargets(page)).toEqual([])
      expect(await violations(page)).toEqual([])
    },
  )

  test('a type of another family has none', async () => {
    const page = await bench.open('/types/2N2646')
    await page.getByRole('heading', { level: 2, name: /^Ratings/ }).waitFor()
    expect(await part(page).count()).toBe(0)
  })
})
