import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, focused, soon, telephone, violations } from './harness.ts'

const number = (page: Page) => page.getByLabel('Number, or words of its use')
const rows = (page: Page) => page.locator('.type-list a')
const area = (page: Page) => page.getByRole('textbox', { name: 'Part type as text' })

const count = (page: Page, text: RegExp | string) => page.locator('.types-count').getByText(text).waitFor()

describePage('part types', true, (bench) => {
  test('found by number as one types, case and hyphens not counting', async () => {
    const page = await bench.open('/types')
    await number(page).pressSequentially('ac 128')
    await count(page, /^\d of \d+ types$/)
    await soon(() => rows(page).first().textContent()).toMatch(/^AC128Ge PNP transistor/)
    await page.waitForURL(/q=ac/)
  })

  test('found by polarity, material, kind, case and limits, all together', async () => {
    const page = await bench.open('/types')
    await page.getByRole('radio', { name: 'PNP' }).check()
    await page.getByRole('radio', { name: 'Ge' }).check()
    await page.getByLabel('Case').selectOption('TO-1')
    await page.getByLabel('Limits it must have').fill('vceo > 15 V, hfe 50')
    await page.getByText('at least 15 V').waitFor()
    await rows(page).getByText('AC128', { exact: true }).waitFor()
    await soon(() => rows(page).count()).toBeLessThan(20)
    await page.waitForURL(/polarity=PNP/)
    const few = await rows(page).count()
    expect(few).toBeGreaterThan(0)
    await page.reload()
    await rows(page).getByText('AC128', { exact: true }).waitFor()
    await soon(() => rows(page).count()).toBe(few)
  })

  test('a limit that makes no sense is said with its mend', async () => {
    const page = await bench.open('/types')
    await page.getByLabel('Limits it must have').fill('V_CEO > 20 mA')
    await page.getByText(/is a current, not a voltage/).waitFor()
    expect(await violations(page)).toEqual([])
  })

  test('a marking is understood, and a wrong number gets near ones', async () => {
    const page = await bench.open('/types')
    await number(page).fill('c1815-gr')
    await page.getByText(/is a gain rank/).waitFor()
    await number(page).fill('AC1299')
    await page.getByText('No type on record answers to all of this.').waitFor()
    await page.getByRole('button', { name: 'Ask for nothing in particular' }).click()
    await count(page, /^\d+ types$/)
  })

  test('by keyboard alone: type, arrow down, Enter, and back', async () => {
    const page = await bench.open('/types')
    await number(page).focus()
    await page.keyboard.type('BC10')
    await rows(page).getByText('BC107', { exact: true }).waitFor()
    await page.keyboard.press('ArrowDown')
    await soon(() => focused(page)).toMatch(/^BC107/)
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('ArrowUp')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'BC107' }).waitFor()
    await page.goBack()
    await soon(() => number(page).inputValue()).toBe('BC10')
  })

  test('one type: limits at conditions, leads, ratings, source, the number explained', async () => {
    const page = await bench.open('/types/AC128')
    const limits = page.getByRole('table', { name: 'Published limits' })
    await soon(() => limits.getByRole('row').nth(1).textContent()).toMatch(/hFE.*60.*90.*175.*IC 300.*mA, VCE 1.*V/)
    await page.getByRole('img', { name: /^Leads E-B-C/ }).waitFor()
    await page.getByText(/^Source: transcribed copy/).waitFor()
    await page.getByText('The first letter stands for germanium.').waitFor()
  })

  test('a record from memory says so plainly', async () => {
    const page = await bench.open('/types/2N1305')
    await page.getByText('From memory: check the datasheet.').waitFor()
  })

  test('one of its own: faults beside their lines, saved, found, edited and undone', async () => {
    const page = await bench.open('/types')
    await page.getByRole('link', { name: 'Add your own' }).click()
    const text = await area(page).inputValue()
    await area(page).fill(text.replace('type: MY-1', 'type: HX-9').replace('I_C: 150 mA', 'I_C: 150 V'))
    await page.getByRole('button', { name: /^Line 12/ }).waitFor()
    await soon(() => page.locator('.editor-notes').textContent()).toContain('is a voltage, not a current')
    expect(await violations(page)).toEqual([])
    await area(page).fill(text.replace('type: MY-1', 'type: HX-9'))
    await page.getByText(/Understood:/).waitFor()
    await page.getByRole('button', { name: 'Save' }).click()
    await page.getByRole('heading', { level: 1, name: 'HX-9' }).waitFor()
    await page.getByText('Your own record.', { exact: false }).waitFor()

    await page.getByRole('link', { name: 'Edit' }).click()
    const kept = await area(page).inputValue()
    await area(page).fill(kept.replace(/audio driver/, 'tone oscillator'))
    await page.getByRole('button', { name: 'Save' }).click()
    await page.getByText(/Made for: tone oscillator/).waitFor()
    await page.keyboard.press('u')
    await page.getByText(/Made for: audio driver/).waitFor()

    await page.goto(`${bench.served.url}/types?q=HX-9`)
    await rows(page).getByText('HX-9', { exact: true }).waitFor()
    await page.getByText('your own', { exact: true }).waitFor()
  })

  test('at 390 px by thumb', async () => {
    const page = await bench.open('/types', telephone)
    await number(page).fill('2n13')
    await rows(page).getByText('2N1305', { exact: true }).tap()
    await page.getByRole('heading', { level: 1, name: '2N1305' }).waitFor()
    await page.getByText('DC current gain').first().waitFor()
  })

  test('a type that is not there', async () => {
    const page = await bench.open('/types/QQ99', { expected: [/404/] })
    await page.getByText(/There is no part type called "QQ99"/).waitFor()
    await page.getByRole('link', { name: 'Describe it yourself' }).waitFor()
  })
})
