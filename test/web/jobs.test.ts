import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, focused, jsonPost, overflow, type PageBench, soon, telephone, violations } from './harness.ts'

interface Detail {
  readonly job: { readonly id: number; readonly name: string; readonly power?: string; readonly state: string }
  readonly positions: readonly {
    readonly ref: string
    readonly column: string
    readonly type?: string
    readonly note?: string
    readonly fittedPart?: string
    readonly reserved: readonly string[]
  }[]
  readonly photos: readonly { readonly name: string }[]
}

const detail = async (bench: PageBench, job = 1): Promise<Detail> =>
  (await (await fetch(`${bench.served.url}/api/jobs/${job}`)).json()) as Detail

const positionOf = async (bench: PageBench, ref: string) =>
  (await detail(bench)).positions.find((one) => one.ref === ref)

async function board(bench: PageBench, ref?: string, wishes = {}): Promise<Page> {
  const page = await bench.open(`/jobs/1${ref === undefined ? '' : `?ref=${ref}`}`, wishes)
  await page.locator('.board').waitFor()
  return page
}

const column = (page: Page, name: string) => page.getByRole('region', { name, exact: true })

describePage('jobs', true, (bench) => {
  test('are listed with how far they are', async () => {
    const page = await bench.open('/jobs')
    await soon(() => page.locator('.jobs-list').textContent()).toContain('2 to look at1 keep1 replace3 done')
    await page.getByRole('link', { name: 'Orrin Point tide recorder' }).click()
    await page.locator('.board').waitFor()
    await soon(() => page.title()).toBe('Orrin Point tide recorder · Germane')
  }, 60_000)

  test('have a board: what each part does in its position stands there', async () => {
    const page = await board(bench)
    await soon(() => column(page, 'To look at').textContent()).toMatch(/OP-3\s+will not/)
    await soon(() => column(page, 'Keep').textContent()).toMatch(/OP-4\s+works/)
    await soon(() => column(page, 'Replace').textContent()).toMatch(/OP-7\s+works/)
    await soon(() => column(page, 'Done').locator('.board-item').count()).toBe(3)
    await page.locator('.job-cautions summary').click()
    await soon(() => page.locator('.job-cautions').textContent()).toContain('beryllium oxide')
    await soon(() => page.locator('.job-cautions').textContent()).toContain('local codes or licensed practice')
  }, 60_000)

  test('have positions that are moved by their words, by the keyboard alone, and undone', async () => {
    const page = await board(bench)
    const done = page.getByRole('button', { name: 'Move Q4 to done' })
    await done.focus()
    await page.keyboard.press('Enter')
    await soon(async () => (await positionOf(bench, 'Q4'))?.column).toBe('done')
    await column(page, 'Done').getByRole('link', { name: 'Q4' }).waitFor()
    await soon(() => focused(page)).toBe('Q4')
    await page.keyboard.press('u')
    await soon(async () => (await positionOf(bench, 'Q4'))?.column).toBe('keep')
    await column(page, 'Keep').getByRole('link', { name: 'Q4' }).waitFor()
  }, 60_000)

  test('have positions that are dragged to another column', async () => {
    const page = await board(bench)
    const item = column(page, 'To look at').locator('.board-item', { hasText: 'Q7' })
    // by its words: what is pressed is a button
    await item.locator('.soft').dragTo(column(page, 'Replace'))
    await soon(async () => (await positionOf(bench, 'Q7'))?.column).toBe('replace')
    await column(page, 'Replace').getByRole('link', { name: 'Q7' }).waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await soon(async () => (await positionOf(bench, 'Q7'))?.column).toBe('to look at')
  }, 60_000)

  test('take a part from the drawer: reserved, fitted, taken out again', async () => {
    const page = await board(bench, 'Q3', { expected: [/404/] })
    const panel = page.getByRole('region', { name: 'Q3, tone filter' })
    await panel.getByLabel('Part of the drawer, by its tag').fill('OP-6')
    await page.keyboard.press('Enter')
    await panel.getByRole('button', { name: 'Fit OP-6' }).waitFor()
    await soon(() => panel.locator('.position-parts').textContent()).toMatch(/OP-6 2N1305, reserved:\s+works/)
    await panel.getByRole('button', { name: 'Fit OP-6' }).click()
    await panel.getByRole('button', { name: 'Take OP-6 out' }).waitFor()
    await soon(async () => await positionOf(bench, 'Q3')).toMatchObject({ fittedPart: 'OP-6', column: 'replace' })
    await soon(() => column(page, 'Replace').textContent()).toMatch(/OP-6\s+works/)
    await panel.getByRole('button', { name: 'Take OP-6 out' }).click()
    await soon(async () => (await positionOf(bench, 'Q3'))?.fittedPart).toBeUndefined()
    await soon(() => panel.getByRole('button', { name: 'Take OP-6 out' }).count()).toBe(0)
    await page.getByLabel('Part of the drawer, by its tag').fill('OP-99')
    await panel.getByRole('button', { name: 'Reserve' }).click()
    await soon(() => panel.getByRole('alert').textContent()).toContain('no part in the book called "OP-99"')
  }, 60_000)

  test('are told of their parts, and the parts of them', async () => {
    const page = await bench.open('/parts/OP-7')
    const link = page.getByRole('link', { name: 'Orrin Point tide recorder, Q5' })
    await soon(() => page.locator('.part').textContent()).toContain('reserved for Orrin Point tide recorder, Q5')
    await link.click()
    await page.getByRole('region', { name: 'Q5, pen relay switch' }).waitFor()
    await page.getByRole('link', { name: 'OP-5' }).click()
    await soon(() => page.locator('.part').textContent()).toContain('found in Orrin Point tide recorder, Q5')
  }, 60_000)

  test('lead to the position in its circuit, with the part that counts', async () => {
    const page = await board(bench, 'Q4')
    await page.getByRole('link', { name: 'Look at it in its circuit' }).click()
    await soon(() => page.locator('main').textContent()).toContain('Q4, line driver, of Orrin Point tide recorder')
    await soon(() => page.locator('.stage-word').textContent()).toMatch(/OP-4:\s+works/)
  }, 60_000)

  test('have fields that are kept as one leaves them; what is refused says why', async () => {
    const page = await board(bench, 'Q7', { expected: [/400/] })
    const panel = page.getByRole('region', { name: 'Q7, pen drive oscillator' })
    await panel.getByLabel('Note').fill('Oscillator of the pen drive')
    await panel.getByLabel('Role').click()
    await soon(async () => (await positionOf(bench, 'Q7'))?.note).toBe('Oscillator of the pen drive')
    await panel.getByLabel(/^Position/).fill('Q1')
    await page.keyboard.press('Enter')
    await soon(() => panel.locator('.field-fault').first().textContent()).toContain('is a position of')
    await panel.getByLabel(/^Position/).fill('Q7')
    await page.keyboard.press('Tab')
    await panel.locator('summary').click()
    await panel.locator('.job-circuit textarea').fill('stage: dividr')
    await panel.getByLabel('Role').click()
    await soon(() => panel.locator('.job-circuit .field-fault').textContent()).toContain('dividr')
    await page.locator('.job-circuit textarea').fill('')
    await panel.getByLabel('Role').click()
    await page.getByLabel('Runs from').selectOption('mains')
    await soon(async () => (await detail(bench)).job.power).toBe('mains')
    await soon(() => page.locator('.job-cautions summary').textContent()).toContain('mains-operated equipment')
    await page.getByLabel('Runs from').selectOption('battery')
    await soon(async () => (await detail(bench)).job.power).toBe('battery')
  }, 60_000)

  test('that another window changes are shown as they then are', async () => {
    const page = await board(bench)
    await fetch(`${bench.served.url}/api/jobs/1/positions`, jsonPost({ ref: 'D9', type: '1N34A' }))
    await column(page, 'To look at').getByRole('link', { name: 'D9' }).waitFor()
    await fetch(`${bench.served.url}/api/undo`, jsonPost({}))
    await soon(() => page.getByRole('link', { name: 'D9' }).count()).toBe(0)
  }, 60_000)

  test('are begun by name, filled position by position from the keyboard, and taken away', async () => {
    const page = await bench.open('/jobs')
    await page.getByLabel('Name').fill('Bench radio')
    await page.keyboard.press('Enter')
    await soon(() => page.locator('h1').textContent()).toBe('Bench radio')
    await soon(() => page.locator('.job-board').textContent()).toContain('No position is written down yet')
    await page.getByLabel('Add a position').fill('TR1')
    await page.keyboard.press('Tab')
    await page.keyboard.type('OC71')
    await page.keyboard.press('Enter')
    await page.getByRole('region', { name: 'TR1', exact: true }).waitFor()
    await soon(() => column(page, 'To look at').textContent()).toContain('TR1 OC71')
    await page.getByRole('button', { name: 'Take the job away' }).click()
    await soon(() => page.locator('h1').textContent()).toBe('Jobs')
    await soon(() => page.locator('.jobs-list', { hasText: 'Bench radio' }).count()).toBe(0)
  }, 60_000)

  test('come from a file; a bad one says what is wrong where', async () => {
    const page = await bench.open('/jobs', { expected: [/400/] })
    const file = (text: string) => ({ name: 'job.yaml', mimeType: 'application/yaml', buffer: Buffer.from(text) })
    await page.locator('input[type=file]').setInputFiles(file('job: Porch bell\npositions:\n  TR1: { typ: OC71 }\n'))
    await soon(() => page.getByRole('alert').textContent()).toContain('job.yaml, line 3:10, positions.TR1.typ')
    await page.locator('input[type=file]').setInputFiles(file('job: Porch bell\npositions:\n  TR1: { type: OC71 }\n'))
    await soon(() => page.locator('h1').textContent()).toBe('Porch bell')
    await soon(() => column(page, 'To look at').textContent()).toContain('TR1 OC71')
  }, 60_000)

  test('are found, and gone to by keys', async () => {
    const page = await bench.open('/')
    await page.keyboard.press('g')
    await page.keyboard.press('j')
    await soon(() => page.locator('h1').textContent()).toBe('Jobs')
    await page.keyboard.press('/')
    await page.keyboard.type('tide recorder')
    await page
      .getByRole('option', { name: /Orrin Point tide recorder/ })
      .first()
      .waitFor()
    await page.keyboard.press('Enter')
    await page.locator('.board').waitFor()
  }, 60_000)

  test('have a report that stands by itself', async () => {
    const text = await (await fetch(`${bench.served.url}/api/jobs/1/report`)).text()
    for (const width of [1280, telephone.width]) {
      const page = await bench.browser.newPage({ viewport: { width, height: 900 } })
      await page.setContent(text)
      await soon(() => page.locator('h1').textContent()).toBe('Orrin Point tide recorder')
      await soon(() => page.locator('figure svg').count()).toBeGreaterThan(4)
      expect(await violations(page)).toEqual([])
      expect(await overflow(page)).toBe(0)
      await page.close()
    }
  }, 60_000)

  test.each(['light', 'dark'] as const)(
    'have no fault of access, and nothing sticks out: %s',
    async (look) => {
      for (const path of ['/jobs', '/jobs/1', '/jobs/1?ref=Q5'])
        for (const size of [{}, telephone]) {
          const page = await bench.open(path, { ...size, look })
          await page.locator('.jobs-list, .board').waitFor()
          if (path.includes('ref')) await page.locator('.position').waitFor()
          expect(await violations(page), `${path} ${look}`).toEqual([])
          expect(await overflow(page), `${path} ${look}`).toBeLessThanOrEqual(0)
          await page.close()
        }
    },
    120_000,
  )
})

describePage('a book without jobs', false, (bench) => {
  test('says what to do first, and offers the demo', async () => {
    const page = await bench.open('/jobs')
    await soon(() => page.locator('.jobs-none').textContent()).toContain('There is no job in this book yet.')
    await page.getByRole('button', { name: 'put the demo into this book' }).click()
    await page.getByRole('link', { name: 'Orrin Point tide recorder' }).waitFor()
  }, 60_000)

  test('and an address of no job say so', async () => {
    const page = await bench.open('/jobs/99', { expected: [/404/, /ApiFault/] })
    await soon(() => page.locator('.screen').textContent()).toContain('No job of this book has the number 99.')
  }, 60_000)
})
