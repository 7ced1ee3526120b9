import { expect, test } from 'vitest'
import { describePage, none, overflow, smallTargets, soon, telephone, textOf, violations } from './harness.ts'

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
    await soon(() => textOf(page.locator('#identify-echo'))).toContain('672 mV')
    await page.getByRole('button', { name: /^Take it down/ }).click()
    for (const reading of npn.slice(1)) await takeByMouse(page, reading)
    await soon(() => taken(page).count()).toBe(6)
    await soon(() => textOf(best(page))).toContain('silicon NPN BJT')
    await soon(() => textOf(lead(page, 2))).toMatch(/B\s*(> )?99/)
    const ruledOut = page.getByRole('heading', { name: 'Ruled out' }).locator('..')
    await soon(() => textOf(ruledOut)).toContain('silicon PNP BJT')
    const why = page.getByRole('heading', { name: 'Why' }).locator('..')
    await soon(() => textOf(why)).toContain('From B to E of a silicon NPN BJT')
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
    await soon(() => textOf(best(page))).toBe(said)
    // a reading taken again takes the place of the one before; Escape lets the leads go
    await takeByKeys(page, [2, 1, '0.675'])
    await soon(() => textOf(taken(page).last())).toContain('675 mV')
    expect(await taken(page).count()).toBe(6)
    await page.keyboard.press('3')
    await soon(() => textOf(page.locator('.identify-put'))).toContain('Red on 3')
    await page.keyboard.press('Escape')
    await soon(() => textOf(page.locator('.identify-put'))).toContain('Press red’s lead')
    await page.getByRole('button', { name: /strike all out/ }).focus()
    await page.keyboard.press('Enter')
    await none(taken(page))
    await page.getByRole('button', { name: 'Put back what was struck out' }).click()
    await soon(() => taken(page).count()).toBe(6)
    await none(page.getByRole('button', { name: 'Put back what was struck out' }))
    await page.getByText('two leads', { exact: true }).click()
    await none(taken(page))
    await page.getByRole('button', { name: 'Put back what was struck out' }).click()
    await soon(() => taken(page).count()).toBe(6)
    expect(await lead(page, 3).count()).toBe(1)
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

  test('a diode of no known type is planned as a diode', async () => {
    const page = await bench.open('/identify')
    await page.getByText('two leads', { exact: true }).click()
    const run = page.getByRole('link', { name: 'Plan a run for it' })
    for (let n = 0; n < 12 && (await run.count()) === 0; n++) {
      await page.getByRole('button', { name: 'Choose these leads' }).click()
      const [, plus] = /Red on (\d), black on (\d)/.exec((await page.locator('.identify-put').textContent()) ?? '')!
      const range = await page.getByRole('combobox', { name: 'Meter set to' }).inputValue()
      // anode on lead 1: a silicon diode drops about 0.6 V on the check, and lets nothing through the other way
      await field(page).fill(plus === '1' && range === '' ? '0.61 V' : plus === '1' ? '1.2 M' : 'open')
      await page.keyboard.press('Enter')
      await soon(() => taken(page).count()).toBe(n + 1)
      await answered(page)
    }
    await run.click()
    await page.getByRole('heading', { level: 1, name: 'Run' }).waitFor()
    await soon(() => page.getByRole('radio', { name: 'diode' }).isChecked()).toBe(true)
    await soon(() => page.getByRole('radio', { name: 'silicon' }).isChecked()).toBe(true)
    await none(page.getByRole('radio', { name: 'NPN' }))
    await page.getByLabel('Tag of the part').fill('D-7')
    const plan = page.getByRole('region', { name: 'It will read' })
    await soon(async () => (await plan.textContent())?.replaceAll(/\s/g, '')).toMatch(/VF.*IR|IR.*VF/)
    await page.getByRole('button', { name: /Begin/ }).click()
    await page.locator('.step-say').waitFor()
    const id = /run\/(\d+)/.exec(page.url())?.[1]
    const kept = await (await fetch(`${bench.served.url}/api/runs/${id}`)).json()
    expect(kept).toMatchObject({ sheet: { wishes: { family: 'diode', material: 'Si' } } })
  }, 60_000)

  test('says what it cannot use, finds the range of ohms, and says when nothing fits', async () => {
    const page = await bench.open('/identify')
    await page.getByText('two leads', { exact: true }).click()
    await none(lead(page, 3))
    await field(page).fill('0.6')
    await page.keyboard.press('Enter')
    await soon(() => textOf(page.locator('#identify-echo'))).toContain('no two leads yet')
    await lead(page, 1).click()
    await lead(page, 2).click()
    await field(page).fill('six')
    await page.keyboard.press('Enter')
    await soon(() => textOf(page.locator('#identify-echo'))).toContain('“six”')
    await field(page).fill('4.7 kΩ')
    await soon(() => textOf(page.locator('#identify-echo'))).toContain('on 20k')
    await page.keyboard.press('Enter')
    // both ways alike on the diode check: resistance, by Ohm's law 250 ohm at 1 mA
    await page.getByRole('button', { name: /strike all out/ }).click()
    await takeByKeys(page, [1, 2, '0.25 V'])
    await takeByKeys(page, [2, 1, '0.25 V'])
    await soon(() => textOf(best(page))).toContain('resistor')
    await page.getByText('three leads', { exact: true }).click()
    for (const reading of nothingKnown) await takeByKeys(page, reading)
    await soon(() => textOf(best(page))).toContain('None of the parts known here')
    await page.getByText('No part that is known here shows all of this').waitFor()
  }, 60_000)

  /** An invented silicon NPN of which the drops do not tell emitter from collector. */
  const alike = [
    [1, 2, '0.651 V'],
    [1, 3, '0.655 V'],
    [2, 1, 'open'],
    [3, 1, 'open'],
    [2, 3, 'open'],
    [3, 2, 'open'],
  ] as const

  test('a gain trial both ways is offered, typed, and moves the answer', async () => {
    const page = await bench.open('/identify')
    for (const reading of alike) await takeByKeys(page, reading)
    await page.getByRole('checkbox', { name: /measure gain/ }).check()
    const setTo = page.getByRole('combobox', { name: 'Meter set to' })
    await setTo.selectOption('gain')
    const takenFor = page.getByRole('combobox', { name: 'Taken for' })
    expect(await takenFor.inputValue()).toBe('plus')
    const put = page.locator('.identify-put')
    await soon(() => textOf(put)).toBe('Press the lead taken for the collector, then that for the emitter.')
    await lead(page, 2).click()
    await lead(page, 3).click()
    await soon(() => textOf(put)).toBe('Collector 2, base 1, emitter 3.')
    await field(page).fill('6')
    await page.keyboard.press('Enter')
    // the setting stays for the other way round
    await lead(page, 3).click()
    await lead(page, 2).click()
    await field(page).fill('140')
    await page.keyboard.press('Enter')
    await soon(() => textOf(taken(page).last())).toContain('NPN, C 3 B 1 E 2')
    await answered(page)
    await soon(() => textOf(best(page))).toContain('silicon NPN BJT')
    await soon(() => textOf(lead(page, 3))).toMatch(/C\s*(> )?9\d/)
    await soon(() => textOf(page.locator('.identify-part svg'))).toContain('NPN')
    const types = page.getByRole('list', { name: 'Types, likeliest first' }).getByRole('listitem')
    await soon(() => textOf(types.first())).toMatch(/h_?FE about \d+/)
  }, 60_000)

  test('the next test is put on by its key; a diode goes on to 12 V, which tell a Zener diode', async () => {
    const page = await bench.open('/identify')
    await page.getByText('two leads', { exact: true }).click()
    await takeByKeys(page, [1, 2, '0.7 V'])
    await takeByKeys(page, [2, 1, 'open'])
    await answered(page)
    await page.getByText(/^12\sV through 100\skΩ, plus on lead 2/).waitFor()
    await page.keyboard.press('n')
    await soon(() => page.getByRole('combobox', { name: 'Meter set to' }).inputValue()).toBe('breakdown')
    await page.keyboard.type('5.6')
    await soon(() => textOf(page.locator('#identify-echo'))).toContain('5.6 V from 12 V')
    await page.keyboard.press('Enter')
    await soon(() => textOf(best(page))).toContain('silicon Zener diode')
    const types = page.getByRole('list', { name: 'Types, likeliest first' }).getByRole('listitem')
    await soon(() => textOf(types.first())).toMatch(/V_?Z 5\.6 V/)
  }, 60_000)

  /**
   * A needle meter on x100 with 2 kohm in the middle: a silicon junction of 0.6 V takes 0.45 mA of its 0.75 mA, so it shows
   * some 1.3 kohm (Ohm's law on 1.5 V); on ohms its minus is the positive end.
   */
  test('a needle meter: ohms with their polarity, and warmth for a leak', async () => {
    const page = await bench.open('/identify')
    await page.getByText('two leads', { exact: true }).click()
    await page.getByText('needle meter', { exact: true }).click()
    const setTo = page.getByRole('combobox', { name: 'Meter set to' })
    expect(await setTo.inputValue()).toBe('x100')
    await takeByKeys(page, [2, 1, '1.3 k'])
    await takeByKeys(page, [1, 2, 'open'])
    await answered(page)
    await soon(() => textOf(best(page))).toContain('diode')
    // plus on 2 is the negative end: the anode is at 1
    await soon(() => textOf(lead(page, 1))).toMatch(/A/)
    await page.getByRole('button', { name: /strike all out/ }).click()
    await takeByKeys(page, [2, 1, '340'])
    await setTo.selectOption('x1k')
    // Escape leaves the field to the keys of the page, and the meter as it is set
    await page.keyboard.press('Escape')
    await takeByKeys(page, [1, 2, '400 k'])
    const warm = page.getByRole('checkbox', { name: 'held between two fingers' })
    await warm.check()
    await takeByKeys(page, [1, 2, '210 k'])
    await soon(() => textOf(taken(page).last())).toContain('warm')
    expect(await taken(page).count()).toBe(3)
    await soon(() => textOf(best(page))).toContain('germanium diode')
  }, 60_000)

  test('what is marked on it is explained, and may go against the readings', async () => {
    const page = await bench.open('/identify')
    for (const reading of npn) await takeByKeys(page, reading)
    await page.getByRole('textbox', { name: 'What stands on it' }).fill('OC71')
    const told = page.getByRole('region', { name: 'What the marking tells' })
    await soon(() => textOf(told)).toContain('OC71 would be germanium PNP; the readings say silicon NPN BJT')
    await soon(() => textOf(told)).toContain('old European')
    await page.getByRole('textbox', { name: 'What stands on it' }).fill('107')
    const types = page.getByRole('list', { name: 'Types, likeliest first' }).getByRole('listitem')
    await soon(() => textOf(types.first())).toContain('its number holds "107"')
    await page.getByRole('textbox', { name: 'What stands on it' }).fill('BC 107')
    await page.getByRole('link', { name: 'Plan a run as BC107' }).click()
    await page.getByRole('heading', { level: 1, name: 'Run' }).waitFor()
    await soon(() => page.getByRole('combobox', { name: /type/i }).first().inputValue()).toBe('BC107')
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
