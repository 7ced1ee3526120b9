import type { Page } from 'playwright-core'
import { median } from '#core/numeric'
import { browserFile, launchBrowser } from '../test/web/browser.ts'
import { served } from './serving.ts'

/** Figures of the page on a large book, in a browser: ms, and frames a second. */
export interface PageFigures {
  /** From a link to the first rows or words of a screen; the first time, with its code to be fetched. */
  readonly screens: readonly (readonly [what: string, ms: number])[]
  /** From a keystroke in the drawer's filter to the frame that shows its rows, median. */
  readonly keystroke: number
  /** From a letter of a reading of an unmarked part to the frame that shows the answer: the median, and the longest. */
  readonly answer: readonly [median: number, longest: number]
  /** While the drawer is scrolled by 300 px a frame: frames a second, and the share that came late. */
  readonly scroll: { readonly framesPerSecond: number; readonly late: number }
}

const screens: readonly (readonly [what: string, link: string, shows: string])[] = [
  ['drawer', '/drawer', '.parts-body .parts-row'],
  ['testers', '/testers', '.tester-row'],
  ['part types', '/types', 'a.type-row'],
  ['match', '/match', '.match h1, .screen h1'],
  ['positions', '/stage', '.stage-drawing svg, .stage-numbers-live'],
  ['jobs', '/jobs', '.jobs h1'],
  ['run', '/run', 'main form, main h1'],
  ['start', '/', '.newest-row'],
  ['unmarked part', '/identify', '.identify h1'],
]

/**
 * Serves a book and looks at it in a browser.
 *
 * @returns undefined where there is no browser
 */
export async function pageFigures(root: string, book: string): Promise<PageFigures | undefined> {
  if (browserFile === undefined) return undefined
  const server = await served(root, book)
  const browser = await launchBrowser()
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } })
    await page.goto(server.url)
    await page.locator('.newest-row').first().waitFor()
    // a person looks at the start page for a moment, in which the other screens are fetched ahead
    await page.waitForTimeout(4000)
    const opened: [string, number][] = []
    for (const [what, link, shows] of screens) opened.push([what, await followed(page, link, shows)])
    const told = await answer(page)
    await page.getByRole('link', { name: 'Drawer' }).first().click()
    await page.locator('.parts-body .parts-row').first().waitFor()
    await page.waitForTimeout(4000)
    return { screens: opened, answer: told, keystroke: await keystroke(page), scroll: await scroll(page) }
  } finally {
    await browser.close()
    await server.end()
  }
}

/** From a click on a link until something of the screen stands, ms. */
const followed = (page: Page, link: string, shows: string): Promise<number> =>
  page.evaluate(`new Promise((keep, fail) => {
    const from = performance.now()
    document.querySelector('a[href="${link}"]').click()
    const look = () => {
      if (location.pathname === '${link}' && document.querySelector('${shows}') !== null) keep(performance.now() - from)
      else if (performance.now() - from > 20000) fail(new Error('${link} did not come'))
      else requestAnimationFrame(look)
    }
    requestAnimationFrame(look)
  })`)

async function keystroke(page: Page): Promise<number> {
  const field = page.getByLabel('Show only')
  await field.focus()
  const took: number[] = []
  for (const letter of '2n13 hfe>80 oc71') {
    await page.evaluate(`void (window.typed = new Promise((keep) => {
      document.activeElement.addEventListener('input', () => {
        const from = performance.now()
        requestAnimationFrame(() => setTimeout(() => keep(performance.now() - from)))
      }, { once: true, capture: true })
    }))`)
    await page.keyboard.type(letter)
    took.push(await page.evaluate<number>('window.typed'))
  }
  await field.fill('')
  return median(took)
}

/** What a diode check shows on a silicon NPN and on a germanium PNP, pair by pair. */
const unmarked = [
  ['12 open', '13 open', '21 0.652', '23 0.661', '31 open', '32 open'],
  ['12 0.231', '13 open', '21 open', '23 open', '31 1.92', '32 0.238'],
] as const

/** Types the readings of unmarked parts by keyboard alone. */
async function answer(page: Page): Promise<PageFigures['answer']> {
  await page.locator('.identify-next').waitFor()
  // a person takes up the probes first, in which the page makes itself ready
  await page.waitForTimeout(1500)
  const took: number[] = []
  for (const part of unmarked) {
    for (const reading of part) {
      const [leads, shows] = reading.split(' ') as [string, string]
      await page.keyboard.press('Escape')
      await page.keyboard.type(leads)
      for (const letter of shows) {
        await page.evaluate(`void (window.typed = new Promise((keep) => {
          const look = () => {
            const isTold = document.querySelector('.identify-answer[aria-busy="false"]') !== null
            if (isTold) setTimeout(() => keep(performance.now() - window.began))
            else requestAnimationFrame(look)
          }
          document.activeElement.addEventListener('input', () => {
            window.began = performance.now()
            requestAnimationFrame(look)
          }, { once: true, capture: true })
        }))`)
        await page.keyboard.type(letter)
        took.push(await page.evaluate<number>('window.typed'))
      }
      await page.keyboard.press('Enter')
    }
    await page.getByRole('button', { name: 'Another part' }).click()
  }
  return [median(took), Math.max(...took)]
}

const scroll = (page: Page): Promise<PageFigures['scroll']> =>
  page.evaluate(`new Promise((keep) => {
    const table = document.querySelector('.parts-table')
    const box = [table, ...table.querySelectorAll('*')].find((e) => e.scrollHeight > e.clientHeight + 1000) ?? document.scrollingElement
    const gaps = []
    let last
    const step = (now) => {
      if (last !== undefined) gaps.push(now - last)
      last = now
      box.scrollTop += 300
      if (gaps.length < 240) return requestAnimationFrame(step)
      const all = gaps.reduce((a, b) => a + b, 0)
      keep({ framesPerSecond: 1000 * gaps.length / all, late: gaps.filter((g) => g > 25).length / gaps.length })
    }
    requestAnimationFrame(step)
  })`)
