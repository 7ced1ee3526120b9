import { expect, test } from 'vitest'
import { command, describePage, jsonPost, none, soon, telephone, violations } from './harness.ts'

describePage('an empty book', false, (bench) => {
  test.each(['light', 'dark'] as const)('says what to do first, without a fault of access in %s', async (look) => {
    const page = await bench.open('/', { look })
    await page.getByRole('heading', { level: 1, name: 'This book is empty' }).waitFor()
    await soon(() => page.locator('ol.start-steps > li').count()).toBe(3)
    expect(await violations(page)).toEqual([])
  })

  test('other screens teach as well', async () => {
    const page = await bench.open('/testers')
    await page.getByText('Yours is not described yet.').waitFor()
  })

  test('its steps lead to the screens, by keyboard', async () => {
    const page = await bench.open('/')
    await page.getByRole('link', { name: 'Your tester' }).focus()
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'Testers' }).waitFor()
  })
})

describePage('the demo by mouse', false, (bench) => {
  test('one button opens it', async () => {
    const page = await bench.open('/')
    await page.getByRole('button', { name: 'Open the demo' }).click()
    await page.getByRole('heading', { level: 1, name: 'The demo book' }).waitFor()
    await soon(() => page.locator('.newest-row').count()).toBe(12)
    await page.getByRole('link', { name: /OP-5\b/ }).waitFor()
    await soon(() => page.locator('.newest-row', { hasText: 'OP-5' }).textContent()).toContain('short')
    // the gain that the drawer shows first: its leakage taken out
    await soon(() => page.locator('.newest-row', { hasText: 'OP-4' }).textContent()).toMatch(/FE0\s*93/)
  })
})

describePage('the demo by keyboard alone', false, (bench) => {
  test('Tab to the button, Enter', async () => {
    const page = await bench.open('/')
    for (let i = 0; i < 30; i++) {
      await page.keyboard.press('Tab')
      if ((await page.evaluate(`document.activeElement.textContent`)) === 'Open the demo') break
    }
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'The demo book' }).waitFor()
  })
})

describePage('the demo at 390 px', false, (bench) => {
  test('a thumb opens it, in another window as well', async () => {
    const page = await bench.open('/', telephone)
    const other = await bench.open('/')
    await page.getByRole('button', { name: 'Open the demo' }).tap()
    await page.getByRole('heading', { level: 1, name: 'The demo book' }).waitFor()
    await other.getByRole('heading', { level: 1, name: 'The demo book' }).waitFor()
  })
})

describePage('a book in use', true, (bench) => {
  test('offers to go on with an open run', async () => {
    const page = await bench.open('/')
    await none(page.getByText('Go on with'))
    await fetch(`${bench.served.url}/api/runs`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ tester: 'larkfield', type: '2N1305' }),
    })
    await page.getByText('Go on with').waitFor()
    await page.getByText('no reading yet').waitFor()
  })

  test('counts what became of the parts, and leads to one of them', async () => {
    const page = await bench.open('/')
    await page.locator('.start-counts').getByText('conforms', { exact: true }).waitFor()
    await page.getByRole('link', { name: /OP-12\b/ }).click()
    await page.waitForURL(/\/parts\/OP-12$/)
  })

  test.each(['conforms', 'short', 'undecided'])('the count of "%s" leads to just those parts', async (outcome) => {
    const page = await bench.open('/')
    const link = page.locator('.start-counts a').filter({ hasText: outcome })
    const count = Number(await link.locator('b').textContent())
    await link.click()
    await page.waitForURL('**/drawer?verdict=*')
    await soon(() => page.locator('.drawer-count').textContent()).toBe(`${count} of 14 parts`)
    await soon(() => page.getByRole('combobox', { name: 'Verdict' }).inputValue()).toBe(outcome)
    await soon(() => page.locator('.parts-body .parts-row').count()).toBe(count)
  })

  test('what was changed again since, by the command line, is not undone, and that is said', async () => {
    const place = async (): Promise<unknown> => {
      const { part } = (await (await fetch(`${bench.served.url}/api/parts/OP-9`)).json()) as { part: { place: string } }
      return part.place
    }
    const change = { tags: ['OP-9'], changes: { place: 'shelf by page' } }
    await fetch(`${bench.served.url}/api/parts`, jsonPost(change, 'PATCH'))
    const page = await bench.open('/', { expected: [/400|409/] })
    const undo = page.getByRole('button', { name: /Undo ?: Place of OP-9/ })
    await undo.waitFor()
    await command('part', 'edit', 'OP-9', '--place', 'shelf by command', '--book', bench.served.book)
    await undo.click()
    await page.locator('.notice').getByText('Place of OP-9 was changed again since.', { exact: false }).waitFor()
    expect(await place()).toBe('shelf by command')
  })

  test('an edit can be undone from here', async () => {
    await fetch(`${bench.served.url}/api/parts`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ tags: ['OP-7'], changes: { place: 'drawer 99' } }),
    })
    const page = await bench.open('/')
    await page.getByText('drawer 99').first().waitFor()
    await page.getByRole('button', { name: /^Undo.*OP-7/ }).click()
    await page
      .locator('.notice.done')
      .getByText(/^Undone:/)
      .waitFor()
    await page.locator('.newest-row', { hasText: 'OP-7' }).getByText('drawer 3').waitFor()
  })
})
