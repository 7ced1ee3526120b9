import { expect, test } from 'vitest'
import { command, describePage, overflow, soon, telephone, violations } from './harness.ts'

type Open = Parameters<Parameters<typeof describePage>[2]>[0]['open']

const rowsOf = (page: Awaited<ReturnType<Open>>) => page.locator('.match-table tbody tr')
const said = async (page: Awaited<ReturnType<Open>>): Promise<string> =>
  (await page.locator('.match-say').textContent()) ?? ''

describePage('the match screen', true, (bench) => {
  test('finds proven pairs, and fewer as a tolerance is drawn in', async () => {
    const page = await bench.open('/match')
    await soon(() => rowsOf(page).count()).toBe(5)
    expect(await said(page)).toContain('no other choice of them costs less')
    await page.getByRole('combobox', { name: 'Tolerance' }).first().selectOption('percent')
    await soon(() => rowsOf(page).count()).toBeLessThan(5)
    await page.getByRole('slider', { name: 'How far apart: h FE, current gain' }).fill('1000')
    await soon(() => rowsOf(page).count()).toBe(5)
    // a tolerance brings how sure each set is
    await page.getByRole('columnheader', { name: 'Sure' }).waitFor()
  }, 60_000)

  test('keeps a set, exchanges two parts by hand and says what that costs, reserves and gives back', async () => {
    const page = await bench.open('/match')
    await soon(() => rowsOf(page).count()).toBe(5)
    const total = async (): Promise<number> => Number(/in total ([\d.]+)/.exec(await said(page))?.[1])
    const before = await total()
    const [a, b] = [rowsOf(page).nth(0), rowsOf(page).nth(1)]
    await a.locator('.match-part button').first().click()
    await page.getByText('You hold').waitFor()
    await b.locator('.match-part button').first().click()
    await soon(() => page.locator('.match-held').textContent()).toMatch(/makes the total [\d.]+, [\d.]+ more/)
    await page.getByRole('button', { name: 'Exchange and keep' }).click()
    await soon(total).toBeGreaterThan(before)
    await soon(() => page.getByRole('button', { name: 'Let go', exact: true }).count()).toBe(2)
    await page.getByRole('button', { name: 'Let all kept sets go' }).click()
    await soon(total).toBe(before)
    await rowsOf(page).nth(0).getByRole('button', { name: 'Reserve' }).click()
    await soon(() => rowsOf(page).count()).toBe(4)
    await page.getByText('Reserved: 2').waitFor()
    await page.getByRole('button', { name: 'Give back the 2 reserved' }).click()
    await soon(() => rowsOf(page).count()).toBe(5)
  }, 60_000)

  test('by keys alone: another size, a set put to use, and that undone', async () => {
    const page = await bench.open('/match')
    await soon(() => rowsOf(page).count()).toBe(5)
    const tags = await rowsOf(page).nth(0).locator('.match-part button').allTextContents()
    await rowsOf(page).nth(0).getByRole('button', { name: 'Use' }).focus()
    await page.keyboard.press('Enter')
    await page.keyboard.type('output stage')
    await page.keyboard.press('Enter')
    await page
      .getByText(`${tags.join(', ')}: used in output stage now.`)
      .first()
      .waitFor()
    await soon(async () => (await page.locator('.match-part button').allTextContents()).includes(tags[0]!)).toBe(false)
    await page.getByRole('button', { name: 'Undo' }).first().focus()
    await page.keyboard.press('Enter')
    await soon(async () => (await page.locator('.match-part button').allTextContents()).includes(tags[0]!)).toBe(true)
    await page.getByRole('combobox', { name: 'Parts in a set' }).focus()
    await page.keyboard.press('3')
    await soon(() => rowsOf(page).count()).toBe(3)
  }, 60_000)

  test('starts from a common want, and says what no part has', async () => {
    const page = await bench.open('/match')
    await soon(() => rowsOf(page).count()).toBe(5)
    await page.getByRole('combobox', { name: 'Start from' }).selectOption('gain-cascade')
    await soon(() => page.locator('.match-part').first().textContent()).toContain('first stage')
    await page.getByRole('combobox', { name: 'Start from' }).selectOption('diode-quad')
    await soon(() => said(page)).toContain('0 sets')
    await page.getByText('No set is as asked for').waitFor()
  }, 60_000)

  test('answers within 200 ms for 500 parts while a tolerance is drawn', async () => {
    await command('book', 'fill', '--parts', '500', '--seed', '5', '--book', bench.served.book)
    const page = await bench.open('/match')
    await soon(() => rowsOf(page).count()).toBe(60)
    await page.getByRole('combobox', { name: 'Tolerance' }).first().selectOption('percent')
    const slider = page.getByRole('slider').first()
    const times: number[] = []
    for (let i = 1; i <= 9; i++) {
      const before = await said(page)
      const began = performance.now()
      await slider.fill(String(i * 8))
      await soon(() => said(page)).not.toBe(before)
      times.push(performance.now() - began)
    }
    times.sort((x, y) => x - y)
    // the machine of a test may be busy with others: the figure itself is measured by the benchmarks
    expect(times[4]).toBeLessThan(2000)
  }, 120_000)

  for (const look of ['light', 'dark'] as const)
    test(`breaks no rule of access, ${look}, nor at 390 px`, async () => {
      const page = await bench.open('/match', { look })
      await rowsOf(page).first().waitFor()
      expect(await violations(page)).toEqual([])
      await page.setViewportSize(telephone)
      expect(await overflow(page)).toBe(0)
      expect(await violations(page)).toEqual([])
      const use = await rowsOf(page).first().getByRole('button', { name: 'Use' }).boundingBox()
      expect(use!.x + use!.width, 'what one does with a set is in sight').toBeLessThanOrEqual(telephone.width)
    }, 60_000)

  test('opened first, its points stand within the axes', async () => {
    const page = await bench.open('/match')
    const axes = (await page.locator('.chart-axes').boundingBox())!
    const points = (await page.locator('.match-used').boundingBox())!
    expect(points.y).toBeGreaterThanOrEqual(axes.y)
    expect(points.y + points.height).toBeLessThanOrEqual(axes.y + axes.height)
  })

  test('says that a large drawer is too much to be matched while one watches, and matches a type of it', async () => {
    await command('book', 'fill', '--parts', '2000', '--seed', '6', '--book', bench.served.book)
    const page = await bench.open('/match')
    await page.getByText(/^2,\d{3} parts are too many to be matched while you watch/).waitFor()
    expect(await rowsOf(page).count()).toBe(0)
    await page.getByRole('combobox', { name: 'Type' }).selectOption('OC71')
    await soon(() => rowsOf(page).count()).toBeGreaterThan(5)
  }, 60_000)
})
