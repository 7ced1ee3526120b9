import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import {
  command,
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

const rows = (page: Page) => page.locator('.parts-body .parts-row')
const tags = async (page: Page): Promise<readonly string[]> => page.locator('.parts-body .cell-tag').allTextContents()
const counted = async (page: Page): Promise<string> => (await page.locator('.drawer-count').textContent()) ?? ''

async function drawer(bench: PageBench, wishes = {}): Promise<Page> {
  const page = await bench.open('/drawer', wishes)
  await rows(page).first().waitFor()
  return page
}

interface PartSaid {
  readonly part: { readonly place?: string; readonly status: string; readonly lot?: string }
}

const said = async (bench: PageBench, tag: string): Promise<PartSaid['part']> =>
  ((await (await fetch(`${bench.served.url}/api/parts/${tag}`)).json()) as PartSaid).part

describePage('the drawer', true, (bench) => {
  test('filters as one types, by words, by numbers, and by what is chosen', async () => {
    const page = await drawer(bench)
    await soon(() => counted(page)).toBe('14 parts')
    await page.getByLabel('Show only').fill('drawer 3')
    await soon(() => counted(page)).toBe('2 of 14 parts')
    await soon(() => tags(page)).toEqual(['OP-6', 'OP-7'])
    await page.getByLabel('Show only').fill('hfe>100 iceo<1m')
    await soon(async () => (await tags(page)).length).toBeGreaterThan(2)
    await page.getByLabel('Show only').fill('')
    await page.getByRole('combobox', { name: 'Type' }).selectOption('1N34A')
    await soon(() => tags(page)).toEqual(['OP-13', 'OP-14'])
    await page.getByLabel('Show only').fill('nothing like it')
    await soon(() => textOf(page.locator('.drawer-none'))).toContain('Take a word away')
  }, 60_000)

  test('sorts up, down, and back to the order in which the parts came', async () => {
    const page = await drawer(bench)
    const byType = page.getByRole('button', { name: 'Type' })
    await byType.click()
    await soon(async () => (await tags(page))[0]).toBe('OP-13')
    await byType.click()
    await soon(async () => (await tags(page))[0]).toBe('OP-8')
    await byType.click()
    await soon(async () => (await tags(page)).slice(0, 3)).toEqual(['OP-1', 'OP-2', 'OP-3'])
  }, 60_000)

  test('by keys alone: down, choose, extend, open', async () => {
    const page = await drawer(bench)
    await page.keyboard.press('f')
    await page.keyboard.type('2n1305')
    await page.locator('.parts-table').focus()
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('Space')
    await soon(() => textOf(page.locator('.selection-bar b'))).toBe('1 part chosen')
    await page.keyboard.press('Shift+ArrowDown')
    await page.keyboard.press('Shift+ArrowDown')
    await soon(() => textOf(page.locator('.selection-bar b'))).toBe('3 parts chosen')
    await page.keyboard.press('Escape')
    await soon(() => page.locator('.selection-bar').count()).toBe(0)
    await page.keyboard.press('Home')
    await page.keyboard.press('Enter')
    await page.waitForURL('**/parts/OP-1')
  }, 60_000)

  test('a place is changed where it stands, and the change is undone', async () => {
    const page = await drawer(bench)
    await page.locator('.parts-table').focus()
    await page.keyboard.press('F2')
    await page.keyboard.press('Control+a')
    await page.keyboard.type('bench tray')
    await page.keyboard.press('Enter')
    await soon(async () => (await said(bench, 'OP-1')).place).toBe('bench tray')
    await rows(page).first().getByText('bench tray').waitFor()
    await page.keyboard.press('u')
    await soon(async () => (await said(bench, 'OP-1')).place).toBe('amplifier board, Q1')
    await rows(page).first().getByText('amplifier board, Q1').waitFor()
  }, 60_000)

  test('with the mouse: many parts get a status at once, and a change made elsewhere comes in', async () => {
    const page = await drawer(bench)
    await page.getByLabel('Show only').fill('1n34a')
    await page.getByLabel('Choose all that are shown').click()
    await page.getByLabel('What to change').selectOption('Status')
    await page.getByLabel('New status').selectOption('doubtful')
    await page.getByRole('button', { name: 'Change' }).click()
    await soon(async () => (await said(bench, 'OP-14')).status).toBe('doubtful')
    expect((await said(bench, 'OP-13')).status).toBe('doubtful')
    await fetch(`${bench.served.url}/api/parts`, jsonPost({ tags: ['OP-13'], changes: { status: 'good' } }, 'PATCH'))
    await rows(page).first().getByText('good', { exact: true }).waitFor()
  }, 60_000)

  test('scatter and histogram choose the same parts as the table', async () => {
    const page = await drawer(bench)
    await page.getByText('with scatter').click()
    await page.locator('.look-canvas').waitFor()
    const box = (await page.locator('.look-brush').boundingBox())!
    await page.mouse.move(box.x + 66, box.y + 5)
    await page.mouse.down()
    await page.mouse.move(box.x + box.width - 5, box.y + box.height - 35, { steps: 4 })
    await page.mouse.up()
    const chosenNow = async () => Number(/\d+/.exec((await page.locator('.selection-bar b').textContent()) ?? '')?.[0])
    await soon(chosenNow).toBeGreaterThan(5)
    const chosen = await chosenNow()
    await page.getByLabel('show only these').click()
    await soon(() => counted(page)).toBe(`${chosen} of 14 parts`)
    await page.getByText('with histogram').click()
    await page.locator('.bar').first().waitFor()
    await soon(() => page.locator('.bar.chosen').count()).toBeGreaterThan(0)
    await page.getByRole('button', { name: 'Choose none' }).click()
    await soon(() => counted(page)).toBe('14 parts')
  }, 60_000)

  test('columns and their units are chosen and remembered', async () => {
    const page = await drawer(bench)
    await page.locator('.chooser summary').click()
    await page.locator('.chooser-line', { hasText: 'Used in' }).getByRole('checkbox').check()
    await page.getByLabel('Unit of I CEO').selectOption('mA')
    await page.reload()
    await rows(page).first().waitFor()
    const heads = async () => (await page.getByRole('columnheader').allTextContents()).join(' | ')
    await soon(heads).toContain('Used in')
    await soon(heads).toContain('ICEO mA')
  }, 60_000)

  test('what people typed is text', async () => {
    const place = '<img src=x onerror="document.title=1"><script>1</script>'
    await fetch(`${bench.served.url}/api/parts`, jsonPost({ tags: ['OP-9'], changes: { place } }, 'PATCH'))
    const page = await drawer(bench)
    await page.getByText(place).waitFor()
    await none(page.locator('main img, main script'))
  }, 60_000)

  test.each(['light', 'dark'] as const)(
    'axe finds nothing, %s',
    async (look) => {
      const page = await drawer(bench, { look })
      expect(await violations(page)).toEqual([])
      await page.getByText('with scatter').click()
      await page.locator('.look-canvas').waitFor()
      await rows(page).nth(2).click()
      await page.locator('.chooser summary').click()
      expect(await violations(page)).toEqual([])
    },
    60_000,
  )

  test('with a thumb at 390 px', async () => {
    const page = await drawer(bench, telephone)
    expect(await overflow(page)).toBeLessThanOrEqual(0)
    await page.getByRole('button', { name: /More filters/ }).tap()
    await page.getByRole('combobox', { name: 'Verdict' }).selectOption('conforms')
    await rows(page).nth(1).tap()
    await soon(() => textOf(page.locator('.selection-bar b'))).toBe('1 part chosen')
    await page.getByText('with histogram').tap()
    await page.locator('.bar').first().waitFor()
    expect(await overflow(page)).toBeLessThanOrEqual(0)
  }, 60_000)
})

describePage('an empty drawer', false, (bench) => {
  test('says what to do first', async () => {
    const page = await bench.open('/drawer')
    await soon(() => textOf(page.locator('.lead'))).toContain('begin a run')
    expect(await violations(page)).toEqual([])
  }, 60_000)
})

describePage('a report of many chosen parts', false, (bench) => {
  test('is made in a thread of its own, however many there are, and is whole', async () => {
    await command('book', 'fill', '--parts', '70', '--seed', '3', '--book', bench.served.book)
    const page = await drawer(bench)
    await soon(() => counted(page)).toBe('70 parts')
    await page.getByLabel('Choose all that are shown').click()
    await page.locator('.selection-bar').getByRole('link', { name: 'Report' }).click()
    await page.getByRole('heading', { level: 1, name: 'Report of 70 chosen parts' }).waitFor()
    const report = page.frameLocator('iframe')
    const tags = (await (await fetch(`${bench.served.url}/api/drawer`)).json()) as { blocks: { tags: string[] }[] }
    for (const tag of [tags.blocks[0]!.tags[0]!, tags.blocks[0]!.tags.at(-1)!])
      await report.getByText(tag, { exact: true }).first().waitFor({ state: 'attached' })
    expect(await page.getByRole('button', { name: 'Print' }).isEnabled()).toBe(true)
    const wait = page.waitForEvent('download')
    await page.getByRole('link', { name: 'Save' }).click()
    expect((await wait).suggestedFilename()).toBe('report.html')
    await page.getByText('none', { exact: true }).click()
    await report.getByText(tags.blocks[0]!.tags[0]!, { exact: true }).first().waitFor({ state: 'attached' })
    await soon(() => report.locator('details').count()).toBe(0)
  }, 120_000)
})
