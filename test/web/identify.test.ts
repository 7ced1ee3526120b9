import { expect, test } from 'vitest'
import { describePage, none, overflow, smallTargets, soon, telephone, violations } from './harness.ts'

type Page = Awaited<ReturnType<Parameters<Parameters<typeof describePage>[2]>[0]['open']>>

const best = (page: Page) => page.locator('.identify-best')
const field = (page: Page) => page.getByRole('textbox', { name: 'What the meter shows' })
const lead = (page: Page, n: number) => page.getByRole('button', { name: new RegExp(`^Lead ${n}`) })
const taken = (page: Page) => page.getByRole('region', { name: 'Readings' }).getByRole('listitem')

/** The answer is to all that was taken down. */
const answered = (page: Page) => soon(() => page.locator('.identify-bench [aria-busy=true]').count()).toBe(0)

/**
 * A small silicon NPN transistor, emitter, base, collector on leads 1, 2, 3: two junctions with base positive, the
 * base-emitter one dropping a little more, open all other ways (common practice).
 */
const npn = [
  [2, 1, '0.672 V'],
  [2, 3, '0.664 V'],
  [1, 2, 'open'],
  [3, 2, 'OL'],
  [1, 3, 'open'],
  [3, 1, 'open'],
] as const

/** Drops that no arrangement of junctions has. */
const nothingKnown = [
  [1, 2, '2.1 V'],
  [2, 1, '0.9 V'],
  [1, 3, '1.4 V'],
  [3, 1, '2.4 V'],
  [2, 3, '20 mV'],
  [3, 2, 'open'],
] as const

async function takeByMouse(page: Page, [plus, minus, shows]: readonly [number, number, string]): Promise<void> {
  await lead(page, plus).click()
  await lead(page, minus).click()
  await field(page).fill(shows)
  await page.getByRole('button', { name: /^Take it down/ }).click()
}

async function takeByKeys(page: Page, [plus, minus, shows]: readonly [number, number, string]): Promise<void> {
  await page.keyboard.press(String(plus))
  await page.keyboard.press(String(minus))
  await page.keyboard.type(shows)
  await page.keyboard.press('Enter')
}

describePage('the screen that tells what a part is', true, (bench) => {
  test('by mouse: the ranking moves while one types, and says why', async () => {
    const page = await bench.open('/identify')
    await page.getByRole('heading', { name: 'Begin with' }).waitFor()
    await lead(page, 2).click()
    await lead(page, 1).click()
    await field(page).fill('0.672 V')
    // not taken down yet
    await best(page).waitFor()
    expect(await taken(page).count()).toBe(0)
    await soon(() => page.locator('#identify-echo').textContent()).toContain('672 mV')
    await page.getByRole('button', { name: /^Take it down/ }).click()
    for (const reading of npn.slice(1)) await takeByMouse(page, reading)
    await soon(() => taken(page).count()).toBe(6)
    await soon(() => best(page).textContent()).toContain('silicon NPN BJT')
    await soon(() => lead(page, 2).textContent()).toMatch(/B\s*(> )?99/)
    const ruledOut = page.getByRole('heading', { name: 'Ruled out' }).locator('..')
    await soon(() => ruledOut.textContent()).toContain('silicon PNP BJT')
    const why = page.getByRole('heading', { name: 'Why' }).locator('..')
    await soon(() => why.textContent()).toContain('From B to E of a silicon NPN BJT')
  }, 60_000)

  test('by keys alone, and readings are there after a reload', async () => {
    const page = await bench.open('/identify')
    await page.getByRole('heading', { name: 'Begin with' }).waitFor()
    for (const reading of npn) await takeByKeys(page, reading)
    await soon(() => taken(page).count()).toBe(6)
    await answered(page)
    const said = (await best(page).textContent()) ?? ''
    expect(said).toContain('silicon NPN BJT')
    await page.reload()
    await soon(() => taken(page).count()).toBe(6)
    await soon(() => best(page).textContent()).toBe(said)
    // a reading taken again takes the place of the one before; Escape lets the leads go
    await takeByKeys(page, [2, 1, '0.675'])
    await soon(() => taken(page).last().textContent()).toContain('675 mV')
    expect(await taken(page).count()).toBe(6)
    await page.keyboard.press('3')
    await soon(() => page.locator('.identify-put').textContent()).toContain('Red on 3')
    await page.keyboard.press('Escape')
    await soon(() => page.locator('.identify-put').textContent()).toContain('Press red’s lead')
    await page.getByRole('button', { name: /strike all out/ }).focus()
    await page.keyboard.press('Enter')
    await none(taken(page))
  }, 60_000)

  test('offers the next test with a press, until the answer can be run', async () => {
    const page = await bench.open('/identify')
    /** What an invented silicon NPN, E B C, shows to whatever is asked; by the same trade rules as above. */
    const shows = (plus: number, minus: number, joined: string, range: string): string => {
      if (range !== '') return 'open'
      const drop = npn.find(([p, m]) => p === plus && m === minus)![2]
      if (drop.endsWith('V') || joined === '') return drop
      // base joined to the positive lead turns it on: collector positive to a few tens of millivolts
      return joined === 'plus' ? (plus === 3 ? '0.72 V' : '0.74 V') : 'open'
    }
    const run = page.getByRole('link', { name: 'Plan a run for it' })
    for (let n = 0; n < 12 && (await run.count()) === 0; n++) {
      await page.getByRole('button', { name: 'Choose these leads' }).click()
      const [, plus, minus] = /Red on (\d), black on (\d)/.exec(
        (await page.locator('.identify-put').textContent()) ?? '',
      )!
      const joined = await page.getByRole('combobox', { name: 'The third lead' }).inputValue()
      const range = await page.getByRole('combobox', { name: 'Meter set to' }).inputValue()
      await field(page).fill(shows(Number(plus), Number(minus), joined, range))
      await page.keyboard.press('Enter')
      await soon(() => taken(page).count()).toBe(n + 1)
      await answered(page)
    }
    await run.click()
    await page.getByRole('heading', { level: 1, name: 'Run' }).waitFor()
    await soon(() => page.getByRole('radio', { name: 'NPN' }).isChecked()).toBe(true)
    await soon(() => page.getByRole('radio', { name: 'silicon' }).isChecked()).toBe(true)
  }, 60_000)

  test('says what it cannot use, finds the range of ohms, and says when nothing fits', async () => {
    const page = await bench.open('/identify')
    await page.getByText('two leads', { exact: true }).click()
    await none(lead(page, 3))
    await field(page).fill('0.6')
    await page.keyboard.press('Enter')
    await soon(() => page.locator('#identify-echo').textContent()).toContain('no two leads yet')
    await lead(page, 1).click()
    await lead(page, 2).click()
    await field(page).fill('six')
    await page.keyboard.press('Enter')
    await soon(() => page.locator('#identify-echo').textContent()).toContain('“six”')
    await field(page).fill('4.7 kΩ')
    await soon(() => page.locator('#identify-echo').textContent()).toContain('on 20k')
    await page.keyboard.press('Enter')
    // both ways alike on the diode check: resistance, by Ohm's law 250 ohm at 1 mA
    await page.getByRole('button', { name: /strike all out/ }).click()
    await takeByKeys(page, [1, 2, '0.25 V'])
    await takeByKeys(page, [2, 1, '0.25 V'])
    await soon(() => best(page).textContent()).toContain('resistor')
    await page.getByText('three leads', { exact: true }).click()
    for (const reading of nothingKnown) await takeByKeys(page, reading)
    await soon(() => best(page).textContent()).toContain('None of the parts known here')
    await page.getByText('No part that is known here shows all of this').waitFor()
  }, 60_000)

  test('ranks types of the catalog, and narrows them by gain', async () => {
    const page = await bench.open('/identify')
    for (const reading of npn) await takeByKeys(page, reading)
    const types = page.getByRole('list', { name: 'Types, likeliest first' }).getByRole('listitem')
    await soon(() => types.count()).toBe(10)
    const first = await types.first().textContent()
    await page.getByRole('textbox', { name: 'Gain, if measured' }).fill('450')
    await soon(() => types.first().textContent()).not.toBe(first)
    await page.getByRole('textbox', { name: 'Gain, if measured' }).fill('much')
    await page.getByText('“much” is no value above 0').waitFor()
  }, 60_000)

  test('the table of imagined parts comes with this screen only', async () => {
    const page = await bench.open('/')
    const asked: string[] = []
    page.on('request', (r) => asked.push(r.url()))
    const isTable = (url: string): boolean => /identify-[^/]*\.js$/.test(url)
    await page.reload({ waitUntil: 'networkidle' })
    await page.waitForTimeout(1500)
    expect(asked.length).toBeGreaterThan(0)
    expect(asked.filter(isTable)).toEqual([])
    await page.goto(`${bench.served.url}/identify`)
    await soon(() => asked.filter(isTable).length).toBeGreaterThan(0)
  }, 60_000)

  for (const look of ['light', 'dark'] as const)
    test(`breaks no rule of access, ${look}, nor at 390 px`, async () => {
      const page = await bench.open('/identify', { look })
      await page.getByRole('heading', { name: 'Begin with' }).waitFor()
      expect(await violations(page)).toEqual([])
      for (const reading of npn.slice(0, 4)) await takeByKeys(page, reading)
      await page.keyboard.press('1')
      await page.keyboard.press('3')
      expect(await violations(page)).toEqual([])
      await page.setViewportSize(telephone)
      expect(await overflow(page)).toBe(0)
      expect(await smallTargets(page)).toEqual([])
      expect(await violations(page)).toEqual([])
    }, 60_000)
})
