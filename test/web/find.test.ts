import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, none, soon, telephone, violations } from './harness.ts'

const field = (page: Page) => page.getByRole('combobox', { name: 'Find anything' })
const option = (page: Page, name: RegExp) => page.getByRole('option', { name })

describePage('find anything', true, (bench) => {
  test('by keyboard: / , a tag, Enter', async () => {
    const page = await bench.open('/')
    await page.keyboard.press('/')
    await page.keyboard.type('op-4')
    await option(page, /^OP-4/).waitFor()
    await soon(() => option(page, /^OP-4/).getAttribute('aria-selected')).toBe('true')
    expect(await violations(page)).toEqual([])
    await page.keyboard.press('Enter')
    await page.waitForURL(/\/parts\/OP-4$/)
    await soon(() => field(page).inputValue()).toBe('')
  })

  test('arrows choose, Escape leaves', async () => {
    const page = await bench.open('/types')
    await page.keyboard.press('/')
    await page.keyboard.type('AC12')
    await option(page, /^AC125/).waitFor()
    const chosen = (): Promise<string | null> =>
      page.locator('[role=option][aria-selected=true] .find-name').textContent()
    const first = await chosen()
    await page.keyboard.press('ArrowDown')
    await soon(() => chosen()).not.toBe(first)
    await page.keyboard.press('ArrowUp')
    await soon(() => chosen()).toBe(first)
    await page.keyboard.press('ArrowUp')
    await page.keyboard.press('ArrowDown')
    await soon(() => chosen()).toBe(first)
    await page.keyboard.press('Escape')
    await none(page.locator('.find-place'))
  })

  test('by mouse: a tester', async () => {
    const page = await bench.open('/')
    await field(page).fill('larkf')
    await option(page, /Larkfield/).click()
    await page.getByRole('heading', { level: 1, name: 'Larkfield bench tester' }).waitFor()
  })

  test('by thumb at 390 px: a type', async () => {
    const page = await bench.open('/', telephone)
    await field(page).tap()
    await field(page).fill('bc107')
    await option(page, /^BC107/)
      .first()
      .tap()
    await page.getByRole('heading', { level: 1, name: 'BC107' }).waitFor()
  })

  test('words of a note lead to the part', async () => {
    const page = await bench.open('/')
    await field(page).fill('fuse')
    await option(page, /OP-5/).click()
    await page.waitForURL(/\/parts\/OP-5$/)
  })

  test('a lot leads to the drawer', async () => {
    const page = await bench.open('/')
    await field(page).fill('orrin')
    await option(page, /orrin-point.*lot/).click()
    await page.waitForURL(/\/drawer\?lot=orrin-point/)
  })

  test('nothing found is said', async () => {
    const page = await bench.open('/')
    await field(page).fill('zzzz')
    await page.getByText('Nothing is called "zzzz".').waitFor()
  })
})
