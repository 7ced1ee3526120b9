import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { describePage, jsonPost, type PageBench, soon } from './harness.ts'

/** More than the connections that a browser opens to one address. */
const many = 8

const edit = (bench: PageBench, place: string): Promise<Response> =>
  fetch(`${bench.served.url}/api/parts`, jsonPost({ tags: ['OP-1'], changes: { place } }, 'PATCH'))

const shows = (page: Page, place: string): Promise<void> =>
  page.locator('.parts-body .parts-row').first().getByText(place, { exact: true }).waitFor()

describePage('windows of one browser', true, (bench) => {
  test('all stand, and all stay in step by one stream, whichever of them is closed', async () => {
    const first = await bench.open('/drawer')
    let streams = 0
    const count = (page: Page): void => {
      page.on('request', (r) => {
        if (r.url().endsWith('/api/events')) streams += 1
      })
    }
    first.context().on('page', count)
    const rest: Page[] = []
    while (rest.length < many - 1) rest.push(await bench.open('/drawer', { beside: first }))
    await edit(bench, 'tray one')
    await Promise.all([first, ...rest].map((page) => shows(page, 'tray one')))
    expect(streams).toBe(0)

    await first.close()
    await soon(() => streams, 'another window takes the stream over').toBe(1)
    await edit(bench, 'tray two')
    await Promise.all(rest.map((page) => shows(page, 'tray two')))
    expect(streams).toBe(1)
  }, 120_000)

  test('all say so when the server is gone, and go on when it is back', async () => {
    const expected = [/ERR_|Failed to (load|fetch)|EventSource/]
    const first = await bench.open('/drawer', { expected })
    const second = await bench.open('/types', { beside: first, expected })
    await bench.served.kill()
    for (const page of [first, second]) await page.getByText('The server does not answer.').waitFor()
    await bench.served.again()
    for (const page of [first, second])
      await page.getByText('The server does not answer.').waitFor({ state: 'detached' })
    await edit(bench, 'tray three')
    await shows(first, 'tray three')
  }, 120_000)
})
