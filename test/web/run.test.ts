import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import {
  describePage,
  none,
  overflow,
  type PageBench,
  smallTargets,
  soon,
  telephone,
  textOf,
  violations,
} from './harness.ts'

/** What is typed for each reading of a good small germanium transistor on the Larkfield tester. */
const typed: Readonly<Record<string, string>> = {
  'It shows': 'clear',
  ICBO: '1.4',
  ICES: '6',
  ICEO: '8.5',
  IEBO: '1,1 div',
  IC: '25',
  hFE: '96',
  VBE: '0.21 V',
}

const plain = (text: string | null): string => (text ?? '').replaceAll(/\s+/g, ' ').trim()

const labelOf = async (page: Page): Promise<string | undefined> => {
  const label = page.locator('.step .entry-label')
  return (await label.count()) === 0 ? undefined : plain(await label.textContent())
}

const countOf = async (page: Page): Promise<string> => plain(await page.locator('.run-count').textContent())

/** Does something and waits until another step stands there, or the part is done. */
async function nextStep(page: Page, act: () => Promise<void>): Promise<void> {
  const before = await countOf(page)
  await act()
  for (let i = 0; i < 200; i++) {
    if ((await page.locator('.run-count').count()) === 0 || (await countOf(page)) !== before) return
    await page.waitForTimeout(25)
  }
  throw new Error(`still at ${before}`)
}

const enter = (page: Page): Promise<void> => page.keyboard.press('Enter')

/** Goes on by keys alone until a reading is asked for. */
async function toReading(page: Page, label: string): Promise<void> {
  for (let i = 0; i < 60; i++) {
    const now = await labelOf(page)
    if (now === label) return
    if (now !== undefined) await page.keyboard.type(typed[now] ?? '1')
    await nextStep(page, () => enter(page))
  }
  throw new Error(`${label} was never asked for`)
}

/** Goes on by keys alone until the part is done. */
async function toEnd(page: Page): Promise<void> {
  for (let i = 0; i < 80 && (await page.locator('#next-tag').count()) === 0; i++) {
    const now = await labelOf(page)
    if (now !== undefined) await page.keyboard.type(typed[now] ?? '1')
    await nextStep(page, () => enter(page))
  }
  await page.locator('#next-tag').waitFor()
}

/** Begins a run by keys alone. */
async function begin(page: Page, tag: string, type = '2N1305'): Promise<number> {
  await page.getByRole('combobox', { name: 'Part type' }).fill(type)
  await page.keyboard.press('Escape')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Control+a')
  await page.keyboard.type(tag)
  await page.keyboard.press('Enter')
  await page.locator('.step-say').waitFor()
  return Number(/run\/(\d+)/.exec(page.url())?.[1])
}

interface Kept {
  readonly reading: { readonly part: string; readonly reads: string; readonly seen: string; readonly point: number }
}

async function keptIn(bench: PageBench, run: number): Promise<readonly Kept['reading'][]> {
  const detail = (await (await fetch(`${bench.served.url}/api/runs/${run}`)).json()) as { readings: Kept[] }
  return detail.readings.map((r) => r.reading)
}

/** Waits until the book has so many readings of a run. */
async function waitForKept(bench: PageBench, run: number, count: number): Promise<readonly Kept['reading'][]> {
  for (let i = 0; i < 100; i++) {
    const kept = await keptIn(bench, run).catch(() => [])
    if (kept.length >= count) return kept
    await new Promise((r) => setTimeout(r, 100))
  }
  return keptIn(bench, run)
}

describePage('a run', true, (bench) => {
  test('by keys alone: two parts of a lot, one after the other, without touching the mouse', async () => {
    const page = await bench.open('/run')
    const run = await begin(page, 'KEY-9')
    await toEnd(page)
    await soon(() => textOf(page.locator('.step-say'))).toBe('KEY-9 is done. Take it out.')
    await soon(() => page.locator('#next-tag').inputValue()).toBe('KEY-10')
    await enter(page)
    await page.locator('.run-where b', { hasText: 'KEY-10' }).waitFor()
    await toReading(page, 'ICBO')
    const kept = await waitForKept(bench, run, 11)
    const first = kept.filter((r) => r.part === 'KEY-9')
    expect(first.map((r) => `${r.reads} ${r.seen}`)).toContain('I_CBO 1.4 div')
    expect(first.map((r) => `${r.reads} ${r.seen}`)).toContain('I_EBO 1,1 div')
    expect(kept.filter((r) => r.part === 'KEY-10').map((r) => r.seen)).toEqual(['clear'])
  }, 120_000)

  test('what stands in the fields before a run is there again after one looked something up, or loaded the page anew', async () => {
    const page = await bench.open('/run')
    await page.getByRole('combobox', { name: 'Part type' }).fill('BC107')
    await page.getByLabel('Tag of the part').fill('LOOK-1')
    await page.getByLabel('Room temperature').fill('19')
    await page.getByRole('link', { name: 'Part types' }).click()
    await page.locator('h1', { hasText: 'Part types' }).waitFor()
    await page.goBack()
    await soon(() => page.getByLabel('Tag of the part').inputValue()).toBe('LOOK-1')
    await page.reload()
    await soon(() => page.getByLabel('Tag of the part').inputValue()).toBe('LOOK-1')
    await soon(() => page.getByLabel('Room temperature').inputValue()).toBe('19')
    await soon(() => page.getByRole('combobox', { name: 'Part type' }).inputValue()).toBe('BC107')
  })

  test('what is typed is echoed with its unit, the needle follows, and parameters appear', async () => {
    const page = await bench.open('/run')
    await begin(page, 'ECHO-1')
    await toReading(page, 'ICBO')
    await page.keyboard.type('1.4')
    await page.locator('.echo-good').waitFor()
    await soon(() => textOf(page.locator('.echo-good'))).toBe('1.4 div of 50 on 100 µA = 2.80 µA')
    await soon(() => page.locator('.arc-needle').count()).toBe(1)
    await soon(() => textOf(page.locator('.scale-where'))).toBe('as expected')
    await page.locator('.so-far').waitFor()
    await soon(() => textOf(page.locator('.so-far'))).toContain('2.8')
    await page.keyboard.press('Control+a')
    await page.keyboard.type('40')
    await page.locator('.scale-where', { hasText: 'higher than expected' }).waitFor()
    await page.keyboard.press('Control+a')
    await page.keyboard.type('12.5u')
    await page.locator('.echo-good', { hasText: '12.5 µA' }).waitFor()
  }, 60_000)

  test('a mistake is refused with its sentence, and the step stays', async () => {
    const page = await bench.open('/run')
    await begin(page, 'SLIP-1')
    await toReading(page, 'ICBO')
    const count = await countOf(page)
    await page.keyboard.type('60')
    await enter(page)
    await page.locator('.echo.refused').waitFor()
    await soon(() => textOf(page.locator('.echo.refused'))).toContain('is beyond the end of the scale')
    await soon(() => countOf(page)).toBe(count)
    await page.keyboard.press('Control+a')
    await page.keyboard.press('Delete')
    await enter(page)
    await soon(() => textOf(page.locator('.echo'))).toContain('Press Enter again to leave')
    await nextStep(page, () => enter(page))
  }, 60_000)

  test('after a short nothing is asked; a slip is corrected and the run goes on', async () => {
    const page = await bench.open('/run')
    const run = await begin(page, 'SHORT-1')
    await toReading(page, 'It shows')
    await enter(page)
    await page.locator('.echo.refused', { hasText: 'Make the short check first' }).waitFor()
    await page.getByRole('button', { name: 'short', exact: true }).click()
    await page.locator('.step-say', { hasText: 'SHORT-1 is shorted' }).waitFor()
    await none(page.locator('#reading'))
    expect((await waitForKept(bench, run, 1)).map((r) => r.seen)).toEqual(['short'])
    await page.getByRole('button', { name: 'Back to SHORT-1' }).click()
    await page.getByRole('button', { name: 'clear', exact: true }).click()
    await page.locator('.step-say', { hasText: 'Wait' }).waitFor()
    await soon(async () => (await keptIn(bench, run)).map((r) => r.seen)).toEqual(['clear'])
  }, 60_000)

  test('with the mouse: units, ranges, advice, back, and any earlier reading corrected', async () => {
    const page = await bench.open('/run')
    const run = await begin(page, 'MOUSE-1')
    await toReading(page, 'ICES')
    await page.locator('.entry-units label', { hasText: 'µA' }).click()
    await page.locator('#reading').fill('7')
    await soon(() => textOf(page.locator('.echo-good'))).toContain('7.00 µA')
    await page.getByLabel('Range').selectOption('1 mA')
    await soon(() => textOf(page.locator('.echo-good'))).toContain('on 1 mA')
    await page.getByRole('button', { name: 'Something odd?' }).click()
    await soon(() => textOf(page.locator('.advice'))).toContain('?')
    await nextStep(page, () => page.getByRole('button', { name: /Take it/ }).click())
    await nextStep(page, () => page.getByRole('button', { name: 'Back' }).click())
    await soon(() => page.locator('#reading').inputValue()).toBe('7 uA')
    await page.locator('.read-list button', { hasText: 'CBO' }).click()
    await page.locator('.step-say', { hasText: 'CBO' }).waitFor()
    await page.locator('#reading').fill('2.2')
    await nextStep(page, () => page.getByRole('button', { name: /Take it/ }).click())
    await soon(async () => (await keptIn(bench, run)).map((r) => `${r.reads} ${r.seen}`).sort()).toEqual([
      'I_CBO 2.2 div',
      'I_CES 7 uA',
      'short clear',
    ])
  }, 60_000)

  test('a page that is loaded again goes on where it was, with what was half typed', async () => {
    const page = await bench.open('/run')
    await begin(page, 'AGAIN-1')
    await toReading(page, 'ICES')
    await page.keyboard.type('6.2')
    const count = await countOf(page)
    await page.reload()
    await page.locator('#reading').waitFor()
    await soon(async () => [await countOf(page), await page.locator('#reading').inputValue()]).toEqual([count, '6.2'])
    const other = await bench.open('/run')
    await other.locator('.open-runs li', { hasText: 'AGAIN-1' }).getByRole('link').click()
    await other.locator('.step-say').waitFor()
    await soon(() => textOf(other.locator('.read-list'))).toContain('1.4 div')
  }, 60_000)

  test('a tag is text, whatever it holds', async () => {
    const page = await bench.open('/run')
    const tag = '<img src=x onerror=alert(1)>'
    await begin(page, tag)
    await toReading(page, 'ICBO')
    await soon(() => textOf(page.locator('.run-where b'))).toBe(tag)
    await none(page.locator('main img'))
  }, 60_000)

  test('a tag that no address could hold is refused with a sentence', async () => {
    const page = await bench.open('/run')
    await page.getByRole('combobox', { name: 'Part type' }).fill('2N1305')
    await page.keyboard.press('Escape')
    await page.getByLabel('Tag of the part').fill('..')
    await page.keyboard.press('Enter')
    await page.getByText('".." is no tag: in an address it means another place. Take one such as Q17.').waitFor()
    await soon(() => new URL(page.url()).pathname).toBe('/run')
  })

  test('with a thumb alone at 390 px', async () => {
    const page = await bench.open('/run', telephone)
    await page.getByRole('combobox', { name: 'Part type' }).fill('2N130')
    await page.getByRole('option', { name: /^2N1305/ }).tap()
    await page.getByLabel('Tag of the part').fill('THUMB-1')
    expect(await overflow(page)).toBeLessThanOrEqual(0)
    expect(await smallTargets(page)).toEqual([])
    await page.getByRole('button', { name: /Begin/ }).tap()
    await page.locator('.step-say').waitFor()
    for (let i = 0; (await labelOf(page)) === undefined && i < 10; i++)
      await nextStep(page, () => page.getByRole('button', { name: /Done/ }).tap())
    await page.getByRole('button', { name: 'clear', exact: true }).tap()
    for (let i = 0; (await labelOf(page)) !== 'ICBO' && i < 20; i++)
      await nextStep(page, () => page.getByRole('button', { name: /Done/ }).tap())
    await page.locator('#reading').fill('1.4')
    expect(await overflow(page)).toBeLessThanOrEqual(0)
    expect(await smallTargets(page)).toEqual([])
    const lowEdge = async () => {
      const go = await page.getByRole('button', { name: /Take it/ }).boundingBox()
      return (go?.y ?? Number.NaN) + (go?.height ?? 0)
    }
    await soon(lowEdge).toBeLessThanOrEqual(telephone.height)
    await nextStep(page, () => page.getByRole('button', { name: /Take it/ }).tap())
  }, 60_000)

  test.each(['light', 'dark'] as const)(
    'axe finds nothing, %s',
    async (look) => {
      const page = await bench.open('/run', { look })
      expect(await violations(page)).toEqual([])
      await begin(page, `AXE-${look}`)
      expect(await violations(page)).toEqual([])
      await toReading(page, 'It shows')
      expect(await violations(page)).toEqual([])
      await toReading(page, 'ICEO')
      await page.keyboard.type('8.5')
      await page.keyboard.press('?')
      await page.locator('.advice').waitFor()
      expect(await violations(page)).toEqual([])
      await toEndFrom(page)
      expect(await violations(page)).toEqual([])
    },
    120_000,
  )

  test('the server is killed during a run and started again: nothing typed is lost', async () => {
    const page = await bench.open('/run', { expected: [/ERR_|Failed to (load|fetch)|EventSource|502|NetworkError/] })
    const run = await begin(page, 'KILL-1')
    await toReading(page, 'ICBO')
    await waitForKept(bench, run, 1)
    await bench.served.kill()
    await toReading(page, 'IEBO')
    await page.keyboard.type('1.1')
    await page.locator('.unsaved .said', { hasText: '3 readings wait' }).waitFor()
    await bench.served.again()
    const kept = await waitForKept(bench, run, 4)
    expect(kept.map((r) => `${r.reads} ${r.seen}`)).toEqual([
      'short clear',
      'I_CBO 1.4 div',
      'I_CES 6 div',
      'I_CEO 8.5 div',
    ])
    await page.locator('.unsaved .said').waitFor({ state: 'detached' })
    await soon(() => page.locator('#reading').inputValue()).toBe('1.1')
    await page.reload()
    await page.locator('#reading').waitFor()
    await soon(() => page.locator('#reading').inputValue()).toBe('1.1')
    await toEndFrom(page)
    expect((await waitForKept(bench, run, 11)).length).toBe(11)
  }, 120_000)
})

/** Takes what stands in the field, then goes on to the end. */
async function toEndFrom(page: Page): Promise<void> {
  await nextStep(page, () => enter(page))
  await toEnd(page)
}
