// npm run gallery: pictures of every screen, in light, in dark and at 390 px, into dist/gallery with a page to look at them.
import { spawn } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ensureReady, root } from './ready.mjs'

const out = join(root, 'dist/gallery')

const looks = [
  { name: 'light', width: 1280, height: 860, colorScheme: 'light' },
  { name: 'dark', width: 1280, height: 860, colorScheme: 'dark' },
  { name: '390', width: 390, height: 844, colorScheme: 'light' },
]

/** Screens of the demo book; `act` brings a screen into the state that is worth a picture. */
const screens = [
  { name: 'start', path: '/' },
  { name: 'testers', path: '/testers' },
  { name: 'tester', path: '/testers/larkfield?type=2N1305' },
  { name: 'tester-digital', path: '/testers/tallow' },
  { name: 'tester-versions', path: '/testers/marlpit', act: (page) => page.getByText('What changed').first().click() },
  { name: 'tester-edit', path: '/testers/larkfield?edit=1', act: breakDescription },
  { name: 'types', path: '/types' },
  { name: 'types-search', path: '/types?material=Ge&polarity=PNP&limits=V_CEO+>+15+V,+h_FE+>+50' },
  { name: 'types-nothing', path: '/types?q=AC1299' },
  { name: 'type', path: '/types/BC107' },
  { name: 'type-memory', path: '/types/2N1305' },
  { name: 'type-power', path: '/types/2N3055' },
  { name: 'type-edit', path: '/types/AC128?edit=1' },
  { name: 'type-text', path: '/types/AC128?edit=1', act: (page) => page.getByText('as text').click() },
  { name: 'type-new', path: '/types?new=1' },
  { name: 'find', path: '/', act: findSomething, isWindow: true },
  { name: 'shortcuts', path: '/', act: (page) => page.keyboard.press('?'), isWindow: true },
  { name: 'nowhere', path: '/nowhere' },
  { name: 'run', path: '/run' },
  { name: 'run-next', path: '/run/2' },
  { name: 'drawer', path: '/drawer', isWindow: true },
  { name: 'drawer-scatter', path: '/drawer', act: showScatter },
  { name: 'match', path: '/match', act: drawTolerance },
  { name: 'identify', path: '/identify' },
  { name: 'curves', path: '/curves' },
  { name: 'stage', path: '/stage', act: drawnStage },
  { name: 'stage-drawer', path: '/stage?job=1&ref=Q3', act: tryDrawer },
  { name: 'stage-other', path: '/stage?job=1&ref=Q4', act: otherPart },
  { name: 'found', path: '/testers/larkfield?found=1' },
  { name: 'trouble', path: '/testers/larkfield?trouble=1' },
  { name: 'part', path: '/parts/OP-4' },
  { name: 'part-undecided', path: '/parts/OP-6' },
  { name: 'part-short', path: '/parts/OP-5' },
  { name: 'report', path: '/report?lot=orrin-point', isWindow: true },
  // Adds a part to the book, so it comes last.
  { name: 'run-step', path: '/run/2?tag=Q7', act: goToReading },
]

/** The verdict is there, and the spread is drawn. */
async function drawnStage(page) {
  await page.locator('.stage-verdict[aria-busy=false] .stage-word').waitFor()
  await page.getByRole('region', { name: 'Spread' }).waitFor()
}

/** The tight part of a position that is hard on leakage, and all others. */
async function tryDrawer(page) {
  await page.getByText('a part of the drawer', { exact: true }).click()
  await page.getByLabel('Tag of the part').fill('OP-3')
  await page.getByRole('button', { name: 'Try the whole drawer here' }).click()
  await page.getByText(/of \d+ work here/).waitFor()
  await drawnStage(page)
}

/** A silicon part of the other polarity, and the resistors it needs. */
async function otherPart(page) {
  await page.getByText('another type', { exact: true }).click()
  await page.getByLabel('Part type').fill('BC107')
  await page.getByRole('button', { name: /Find the least change/ }).click()
  await page.getByRole('region', { name: 'Before you open it' }).waitFor()
  await drawnStage(page)
}

async function breakDescription(page) {
  const area = page.getByRole('textbox', { name: 'Description of the tester' })
  const text = await area.inputValue()
  await area.fill(text.replace('coil: 1.1 kohm', 'coil: 1.1 kV').replace('shunt: 37.9 ohm', 'shunt: 39.7 ohm'))
  await page.getByText(/things? to mend/).waitFor()
}

async function showScatter(page) {
  const more = page.getByRole('button', { name: /More filters/ })
  if (await more.isVisible()) await more.click()
  await page.getByText('with scatter').click()
  await page.locator('.look-canvas').waitFor()
}

/** A tolerance, so that the sets say how sure they are. */
async function drawTolerance(page) {
  await page.getByRole('combobox', { name: 'Tolerance' }).first().selectOption('ratio')
  await page.locator('.match-table tbody tr').first().hover()
}

/** To the first reading of a current, half typed, so that its arc stands there. */
async function goToReading(page) {
  const textOf = async (name) => (await page.locator(name).allTextContents())[0] ?? ''
  for (let i = 0; i < 40; i++) {
    const asks = await textOf('.step .entry-label')
    if (/CBO/.test(asks)) break
    if (asks !== '') await page.keyboard.type('clear')
    const before = await textOf('.run-count')
    await page.keyboard.press('Enter')
    for (let n = 0; n < 80 && (await textOf('.run-count')) === before; n++) await page.waitForTimeout(25)
  }
  await page.keyboard.type('1.4')
}

async function findSomething(page) {
  await page.keyboard.press('/')
  await page.keyboard.type('bc1')
  await page.waitForTimeout(400)
}

function start(book) {
  const child = spawn(process.execPath, [join(root, 'bin/germane.mjs'), 'serve', '--book', book, '--port', '0'], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  return new Promise((resolve, reject) => {
    let said = ''
    child.on('exit', (code) => reject(new Error(`The server ended with ${code}: ${said}`)))
    child.stdout.on('data', (text) => {
      said += text
      const url = /http:\/\/[\d.]+:\d+/.exec(said)?.[0]
      if (url !== undefined) resolve({ child, url })
    })
  })
}

async function post(url, path, body) {
  const answer = await fetch(`${url}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
  if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`)
  return answer.json()
}

/** A book with something in every screen. */
async function prepare(url) {
  await post(url, '/api/demo', {})
  const { description } = await (await fetch(`${url}/api/testers/marlpit`)).json()
  await post(url, '/api/testers', { text: description })
  await post(url, '/api/testers', { text: description.replace('class: 1.5 %', 'class: 2.5 %') })
  await post(url, '/api/runs', { tester: 'larkfield', type: '2N1305' })
}

async function picture(page, screen, file) {
  await page.waitForLoadState('networkidle').catch(() => undefined)
  await screen.act?.(page)
  await page.waitForTimeout(250)
  if (screen.isWindow !== true) {
    const height = await page.evaluate(() => document.documentElement.scrollHeight)
    const { width } = page.viewportSize()
    await page.setViewportSize({ width, height: Math.min(height, 8000) })
    await page.waitForTimeout(120)
  }
  await page.screenshot({ path: file })
}

async function pictures(browser, url, list) {
  const troubles = []
  for (const { name: look, width, height, colorScheme } of looks) {
    for (const screen of list) {
      const context = await browser.newContext({ viewport: { width, height }, colorScheme, reducedMotion: 'reduce' })
      const page = await context.newPage()
      page.on('console', (m) => m.type() === 'error' && troubles.push(`${screen.name} ${look}: ${m.text()}`))
      page.on('pageerror', (e) => troubles.push(`${screen.name} ${look}: ${e.message}`))
      await page.goto(`${url}${screen.path}`)
      await page
        .locator('main h1')
        .first()
        .waitFor({ timeout: 10_000 })
        .catch(() => troubles.push(`${screen.name}: no heading`))
      await picture(page, screen, join(out, `${screen.name}-${look}.png`)).catch((e) =>
        troubles.push(`${screen.name} ${look}: ${e.message}`),
      )
      await context.close()
    }
  }
  return troubles
}

function album() {
  const names = ['start-empty', ...screens.map((s) => s.name)]
  const figure = (name, look) =>
    `<figure><img src="${name}-${look}.png" alt=""><figcaption>${name}, ${look}</figcaption></figure>`
  const rows = names.map((n) => `<section>${looks.map((l) => figure(n, l.name)).join('')}</section>`).join('\n')
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Screens of Germane</title><style>body{margin:2rem;font:1rem serif}section{display:grid;grid-template-columns:3fr 3fr 1fr;gap:1rem;align-items:start;margin-bottom:2rem}img{width:100%;border:1px solid #ccc}figure{margin:0}</style>${rows}</html>\n`
}

await ensureReady()
const { chromium } = await import('playwright-core')
const executablePath = [
  process.env.CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
].find((file) => file !== undefined && existsSync(file))
if (executablePath === undefined) {
  console.error('There is no Chromium. Install one, or name it in CHROMIUM.')
  process.exit(2)
}
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu', '--disable-quic'] })
const folder = mkdtempSync(join(tmpdir(), 'germane-gallery-'))
const wanted = process.argv.slice(2)
const isWanted = (screen) => wanted.length === 0 || wanted.includes(screen.name)
mkdirSync(out, { recursive: true })
const { child, url } = await start(join(folder, 'bench.germane'))
try {
  const empty = { name: 'start-empty', path: '/' }
  const troubles = isWanted(empty) ? await pictures(browser, url, [empty]) : []
  await prepare(url)
  troubles.push(...(await pictures(browser, url, screens.filter(isWanted))))
  writeFileSync(join(out, 'index.html'), album())
  console.log(`The pictures are in ${out}; open index.html there.`)
  for (const t of troubles) console.error(t)
  process.exitCode = troubles.length > 0 ? 1 : 0
} finally {
  child.removeAllListeners('exit')
  child.kill()
  await browser.close()
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 })
}
