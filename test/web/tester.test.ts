import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, none, soon, telephone, violations } from './harness.ts'

const area = (page: Page) => page.getByRole('textbox', { name: 'Description of the tester' })

/** Writes over a piece of the description. */
async function change(page: Page, from: string, to: string): Promise<void> {
  const text = await area(page).inputValue()
  expect(text).toContain(from)
  await area(page).fill(text.replace(from, to))
}

describePage('testers', true, (bench) => {
  test('a scale face for each range', async () => {
    const page = await bench.open('/testers')
    const row = page.getByRole('link', { name: /Larkfield bench tester/ })
    await soon(() => row.textContent()).toContain('Health: as described, never calibrated on all its ranges.')
    await row.click()
    await page.getByRole('heading', { level: 1, name: 'Larkfield bench tester' }).waitFor()
    await soon(() => page.locator('.face .dial').count()).toBe(12)
    await page.getByRole('img', { name: 'Scale of 50 divisions, printed 0 to 100; full scale is 10 mA' }).waitFor()
  })

  test('digits for a digital one', async () => {
    const page = await bench.open('/testers/tallow')
    await soon(() => page.locator('.face .digits').count()).toBe(7)
    await soon(() => page.locator('.face').first().textContent()).toContain('200.0')
  })

  test('what it can and cannot measure', async () => {
    const page = await bench.open('/testers/larkfield')
    await page.getByLabel('Of a part type').fill('AC128')
    await page.getByRole('heading', { name: 'It reads of AC128' }).waitFor()
    await page
      .getByText(/Breakdown needs a supply/)
      .first()
      .waitFor()
    await page.getByLabel('Of a part type').press('Tab')
    await page.waitForURL(/type=AC128/)
  })

  test('a type that is not there is said, with near ones', async () => {
    const page = await bench.open('/testers/larkfield', { expected: [/404/] })
    await page.getByLabel('Of a part type').fill('AC1288')
    await page.getByText(/There is no part type called|The suffix/).waitFor()
  })

  test('a fault stands beside its line as one types, and the ranges are drawn as understood', async () => {
    const page = await bench.open('/testers/larkfield?edit=1')
    await area(page).waitFor()
    await soon(() => page.getByText('Nothing to mend.').count()).toBe(1)
    await change(page, 'fullScale: 100 uA', 'fullScale: 100 uV')
    await page.getByRole('button', { name: /^Line 12/ }).waitFor()
    await soon(() => page.locator('.editor-notes').textContent()).toContain('movement.fullScale')
    await soon(() => page.getByRole('button', { name: 'Save' }).isDisabled()).toBe(true)
    expect(await violations(page)).toEqual([])
    await change(page, 'fullScale: 100 uV', 'fullScale: 100 uA')
    await page.getByText('Nothing to mend.').waitFor()
    await soon(() => page.getByRole('button', { name: 'Save' }).isEnabled()).toBe(true)
  })

  test('what is written and not saved is there again after a reload or another screen, until it is thrown away', async () => {
    const page = await bench.open('/testers/larkfield?edit=1')
    await change(page, 'class: 2 %', 'class: 3 %')
    await page.reload()
    const before = page.getByText('This is what you typed here before.')
    await before.waitFor()
    await soon(() => area(page).inputValue()).toContain('class: 3 %')
    await page.getByRole('link', { name: 'Drawer' }).click()
    await page.locator('h1', { hasText: 'Drawer' }).waitFor()
    await page.goBack()
    await before.waitFor()
    await page.getByRole('button', { name: 'Leave' }).click()
    await page.getByText('kept in this browser').waitFor()
    await page.getByRole('link', { name: 'Edit', exact: true }).click()
    await page.getByRole('button', { name: 'Throw it away' }).click()
    await soon(() => area(page).inputValue()).toContain('class: 2 %')
    await page.reload()
    await area(page).waitFor()
    await none(before)
  })

  test('a note leads the caret to its line', async () => {
    const page = await bench.open('/testers/larkfield?edit=1')
    await change(page, 'kind: needle', 'kind: needel')
    await page.getByRole('button', { name: /^Line 5/ }).click()
    const chosen = await page.evaluate(
      `(() => { const a = document.activeElement; return a.value.slice(a.selectionStart, a.selectionEnd) })()`,
    )
    expect(chosen).toBe('kind: needel')
  })

  test('saving makes versions, says what changed, and can be undone; by keyboard', async () => {
    const page = await bench.open('/testers/marlpit?edit=1')
    await change(page, 'class: 1.5 %', 'class: 2.5 %')
    await page.getByRole('button', { name: 'Save' }).focus()
    await page.keyboard.press('Enter')
    await page
      .locator('.notice.done')
      .getByText(/^Kept marlpit as version \d/)
      .waitFor()
    await page.getByText('class 2.5', { exact: false }).waitFor()

    await page.getByRole('link', { name: 'Edit' }).click()
    await change(page, 'class: 2.5 %', 'class: 3.5 %')
    await page.getByRole('button', { name: 'Save' }).click()
    await page.getByText('class 3.5', { exact: false }).waitFor()
    await page.getByRole('button', { name: 'What changed' }).first().click()
    await page.locator('.diff-gone').waitFor()
    await soon(() => page.locator('.diff-gone').textContent()).toContain('class: 2.5 %')
    await soon(() => page.locator('.diff-new').textContent()).toContain('class: 3.5 %')
    expect(await violations(page)).toEqual([])

    await page.keyboard.press('u')
    await page
      .locator('.notice.done')
      .getByText(/^Undone:/)
      .waitFor()
    await page.getByText('class 2.5', { exact: false }).waitFor()
  })

  test('one of its own, described at 390 px', async () => {
    const page = await bench.open('/testers', telephone)
    await page.getByRole('link', { name: 'Describe yours' }).tap()
    await area(page).waitFor()
    const text = await area(page).inputValue()
    await area(page).fill(text.replace(/^id: .*$/m, 'id: attic').replace(/^name: .*$/m, 'name: Attic tester'))
    await page.getByRole('button', { name: 'Save' }).tap()
    await page.getByRole('heading', { level: 1, name: 'Attic tester' }).waitFor()
    await page.getByRole('link', { name: 'Testers' }).tap()
    await page.getByRole('link', { name: /Attic tester/ }).waitFor()
  })

  test('a tester that is not there', async () => {
    const page = await bench.open('/testers/nobody', { expected: [/404/] })
    await page.getByText(/No tester of this book, and no sample, is called “nobody”/).waitFor()
  })
})
