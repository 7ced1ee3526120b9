import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, focused, overflow, smallTargets, soon, telephone, violations } from './harness.ts'

const number = (page: Page) => page.getByLabel('Number, or words of its use')
const rows = (page: Page) => page.locator('.type-list a')
const area = (page: Page) => page.getByRole('textbox', { name: 'Part type as text' })

/** A view of the record one writes. */
const asText = (page: Page) => page.getByRole('radio', { name: 'as text' })
const inForm = (page: Page) => page.getByRole('radio', { name: 'in a form' })

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
    await asText(page).check()
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
    await asText(page).check()
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

  test('by a form, which is another view of the same text', async () => {
    const page = await bench.open('/types?new=1', { expected: [/404/] })
    await page.getByLabel('Number', { exact: true }).fill('FX-1')
    await page.getByLabel('Polarity').selectOption('NPN')
    await page.getByLabel('collector current', { exact: false }).first().fill('150 V')
    await page.getByText(/"150 V" is a voltage, not a current/).waitFor()
    await soon(() => violations(page)).toEqual([])
    await page.getByLabel('collector current', { exact: false }).first().fill('200 mA')
    await page.getByText(/Understood:/).waitFor()
    await asText(page).check()
    const text = await area(page).inputValue()
    expect(text).toContain('type: FX-1\nfamily: bjt                # bjt, diode')
    expect(text).toContain('I_C: 200 mA')
    await area(page).fill(text.replace('use: audio driver', 'use: tone oscillator'))
    await inForm(page).check()
    await soon(() => page.getByLabel('Made for').inputValue()).toBe('tone oscillator')
    await page.getByRole('button', { name: 'Save' }).click()
    await page.getByText(/Made for: tone oscillator/).waitFor()
    await page.keyboard.press('u')
    await page.getByText('There is no part type called "FX-1"', { exact: false }).waitFor()
  }, 60_000)

  test('by the form and keys alone: a limit with its conditions', async () => {
    const page = await bench.open('/types?new=1')
    await page.getByLabel('Number', { exact: true }).focus()
    await page.keyboard.press('Control+a')
    await page.keyboard.type('FX-2')
    await page.getByRole('button', { name: 'Add a limit' }).focus()
    await page.keyboard.press('Enter')
    await soon(() => page.evaluate('document.activeElement?.id')).toBe('limit-3-symbol')
    await page.keyboard.type('vce(sat)')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Tab')
    await page.keyboard.type('0.2 V')
    await page.keyboard.press('Tab')
    await page.keyboard.type('IC 50 mA, IB 2,5 mA')
    await page.getByText(/Understood:.*3 limits/).waitFor()
    await page.getByRole('button', { name: 'Save' }).focus()
    await page.keyboard.press('Enter')
    const limits = page.getByRole('table', { name: 'Published limits' })
    await soon(() => limits.getByRole('row').last().textContent()).toMatch(
      /VCE\(sat\).*200.*mV.*IC 50.*mA, IB 2\.5.*mA/,
    )
    await page.getByRole('link', { name: 'Edit' }).focus()
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Take limit 3 away' }).focus()
    await page.keyboard.press('Enter')
    await soon(() => focused(page)).toBe('Add a limit')
    await page.getByText(/Understood:.*2 limits/).waitFor()
  }, 60_000)

  test('by the form at 390 px and by thumb, in the dark', async () => {
    const page = await bench.open('/types/2N1305?edit=1', { ...telephone, look: 'dark' })
    await page.getByLabel('Made for').tap()
    await page.getByLabel('Made for').fill('switch')
    await page.getByText(/Understood:/).waitFor()
    expect(await overflow(page)).toBe(0)
    await soon(() => smallTargets(page)).toEqual([])
    await soon(() => violations(page)).toEqual([])
    await page.getByRole('button', { name: 'Save' }).tap()
    await page.getByText(/Made for: switch/).waitFor()
  }, 60_000)

  test('a text of two types is edited as text', async () => {
    const page = await bench.open('/types?new=1')
    await asText(page).check()
    await area(page).fill('- { type: A1, family: diode }\n- { type: A2, family: diode }')
    await page.getByText(/Understood:.*A1.*A2/).waitFor()
    await inForm(page).check()
    await page.getByText('A form shows one type at a time', { exact: false }).waitFor()
    await area(page).waitFor()
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
