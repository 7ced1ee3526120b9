import { expect, test } from 'vitest'
import {
  describePage,
  focused,
  jsonPost,
  type Look,
  none,
  overflow,
  smallTargets,
  soon,
  telephone,
  violations,
} from './harness.ts'

const looks: readonly Look[] = ['light', 'dark']

describePage('the frame of every screen', true, (bench) => {
  const screens = [
    '/',
    '/testers',
    '/testers/larkfield',
    '/testers/tallow',
    '/testers/larkfield?type=AC128',
    '/testers/larkfield?edit=1',
    '/testers?new=1',
    '/types',
    '/types/AC128',
    '/types/2SB54',
    '/types/1N34A',
    '/types/AC128?edit=1',
    '/types?new=1',
    '/curves',
    '/identify',
    '/stage',
    '/stage?job=1&ref=Q4',
    '/nowhere',
  ]

  test.each(screens)('%s has no fault of access in light and dark, and fits any width', async (path) => {
    const page = await bench.open(path)
    for (const look of looks) {
      await page.emulateMedia({ colorScheme: look })
      expect(await violations(page), look).toEqual([])
    }
    for (const width of [1024, 1920, 3840, telephone.width]) {
      await page.setViewportSize({ width, height: telephone.height })
      await soon(() => overflow(page), `${width} px`).toBe(0)
    }
  })

  test.each(screens)('%s: a thumb hits everything on it', async (path) => {
    const page = await bench.open(path, telephone)
    expect(await overflow(page)).toBe(0)
    expect(await smallTargets(page)).toEqual([])
  })

  test('the first Tab leads past the top line', async () => {
    const page = await bench.open('/testers')
    await page.keyboard.press('Tab')
    await soon(() => focused(page)).toBe('Skip to the page')
    await page.keyboard.press('Enter')
    await soon(() => page.evaluate(`document.activeElement.id`)).toBe('main')
  })

  test('every screen is two keys away, and ? lists them', async () => {
    const page = await bench.open('/')
    for (const [keys, heading] of [
      ['gt', 'Testers'],
      ['gp', 'Part types'],
      ['gs', 'Will it work there?'],
      ['gi', 'What is this part?'],
      ['gd', 'Drawer'],
    ] as const) {
      await page.keyboard.type(keys)
      await page.getByRole('heading', { level: 1, name: heading }).waitFor()
    }
    await page.keyboard.press('?')
    const list = page.getByRole('dialog', { name: 'Keyboard shortcuts' })
    await list.waitFor()
    await soon(() => list.textContent()).toContain('Find anything')
    expect(await violations(page)).toEqual([])
    await page.keyboard.press('Escape')
    await list.waitFor({ state: 'detached' })
  })

  test.each(['/stage', '/jobs', '/parts/OP-4'])(
    'a button that takes a file on %s shows that it has the focus',
    async (path) => {
      const page = await bench.open(path)
      const file = page.locator('input[type=file]').first()
      await file.waitFor({ state: 'attached' })
      await file.focus()
      await page.keyboard.press('Shift+Tab')
      await page.keyboard.press('Tab')
      const outline = `getComputedStyle(document.activeElement.closest('.file').querySelector('label')).outlineStyle`
      await soon(() => page.evaluate(outline)).toBe('solid')
    },
  )

  test('a name of one long word pushes nothing aside', async () => {
    const name = `wheatstone-${'x'.repeat(90)}`
    const made = await fetch(`${bench.served.url}/api/jobs`, jsonPost({ name, equipment: `bridge of ${name}` }))
    const { job } = (await made.json()) as { readonly job: number }
    for (const path of ['/', '/jobs', `/jobs/${job}`]) expect(await overflow(await bench.open(path, telephone))).toBe(0)
  })

  test('letters typed into a field are not shortcuts', async () => {
    const page = await bench.open('/types')
    await page.getByLabel('Number, or words of its use').fill('')
    await page.getByLabel('Number, or words of its use').pressSequentially('g?u')
    await soon(() => page.getByLabel('Number, or words of its use').inputValue()).toBe('g?u')
    await none(page.getByRole('dialog'))
    expect(new URL(page.url()).pathname).toBe('/types')
  })

  test('light and dark are chosen by hand, and remembered', async () => {
    const page = await bench.open('/', { look: 'light' })
    const paper = (): Promise<string> => page.evaluate(`getComputedStyle(document.body).backgroundColor`)
    const light = await paper()
    const scheme = page.getByRole('button', { name: /^Light and dark/ })
    await scheme.click()
    await soon(() => paper()).toBe(light)
    await scheme.click()
    const dark = await paper()
    expect(dark).not.toBe(light)
    await page.reload()
    await page.getByRole('heading', { level: 1 }).waitFor()
    await soon(() => paper()).toBe(dark)
  })

  test('the first screen weighs less than 500 kB', async () => {
    const page = await bench.open('/nowhere')
    const session = await page.context().newCDPSession(page)
    await session.send('Network.enable')
    await session.send('Network.setCacheDisabled', { cacheDisabled: true })
    let bytes = 0
    session.on('Network.loadingFinished', (e) => {
      bytes += e.encodedDataLength
    })
    await page.goto(`${bench.served.url}/`)
    await page.getByRole('heading', { level: 1 }).waitFor()
    await page.waitForTimeout(500)
    expect(bytes).toBeGreaterThan(50_000)
    expect(bytes).toBeLessThan(500_000)
  })

  test('markup in what people write is shown, not obeyed', async () => {
    const inert = '<img src=x onerror="document.title=1"><b>drawer</b>'
    await fetch(`${bench.served.url}/api/parts`, jsonPost({ tags: ['OP-14'], changes: { place: inert } }, 'PATCH'))
    const page = await bench.open('/')
    await page.getByText(inert).first().waitFor()
    await none(page.locator('main img'))
    await page.keyboard.press('/')
    await page.keyboard.type('onerror')
    await page.getByRole('option').first().waitFor()
    await none(page.locator('img'))
  })

  test.each([
    ['/jobs/99', 'No such job', 'See the jobs there are'],
    ['/jobs/nine', 'No such job', 'See the jobs there are'],
    ['/parts/OP-99', 'No such part', 'Read it in a run'],
    ['/run/99', 'No such run', 'Begin a run'],
    ['/run/nine', 'No such run', 'Begin a run'],
    ['/testers/nobody', 'No such tester', 'See the testers there are'],
    ['/testers/nobody/upkeep', 'No such tester', 'See the testers there are'],
    ['/types/XX99', 'No such part type', 'Search for it'],
  ])('%s says what is missing, names its window so, and leads on', async (path, title, way) => {
    const page = await bench.open(path, { expected: [/404/] })
    await page.getByRole('heading', { level: 1, name: title }).waitFor()
    await soon(() => page.title()).toBe(`${title} · Germane`)
    await page.getByRole('link', { name: way }).click()
    await page.getByRole('heading', { level: 1, name: title }).waitFor({ state: 'detached' })
  })

  test.each([
    ['/testers/larkfield?found=1', 'Larkfield bench tester, as found'],
    ['/testers/larkfield?trouble=1', 'Larkfield bench tester, trouble'],
    ['/testers/larkfield?edit=1', 'Edit Larkfield bench tester'],
    ['/testers/larkfield/upkeep/cells', 'Larkfield bench tester, cells'],
    ['/types/BC107?edit=1', 'Edit BC107'],
    ['/report?part=OP-4', 'Report of OP-4'],
    ['/parts/OP-4', 'OP-4'],
    ['/nowhere', 'There is no such page'],
  ])('the window of %s is named for what it shows', async (path, title) => {
    const page = await bench.open(path)
    await soon(() => page.title()).toBe(`${title} · Germane`)
  })

  test('an address that leads nowhere says so and offers a way', async () => {
    const page = await bench.open('/nowhere')
    await page.getByRole('link', { name: 'Go to the start' }).click()
    await page.getByRole('heading', { level: 1, name: 'The demo book' }).waitFor()
  })
})

describePage('when the server stops', true, (bench) => {
  test('the page says so, and goes on when it is back', async () => {
    const gone = [/ERR_CONNECTION_REFUSED|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED|ERR_CONNECTION_RESET/]
    const page = await bench.open('/', { expected: gone })
    await page.waitForTimeout(300)
    await bench.served.kill()
    await page.getByText('The server does not answer.').waitFor()
    await bench.served.again()
    await page.getByText('The server does not answer.').waitFor({ state: 'detached', timeout: 20_000 })
  })
})
