import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { browserFile, launchBrowser } from './browser.ts'

const root = join(import.meta.dirname, '..', '..')

/** A server on a book of its own. */
export interface Served {
  readonly url: string
  readonly book: string
  /** What it printed when it started. */
  readonly said: string
  /** Ends the server at once, as a power cut would. */
  kill(): Promise<void>
  /** Starts it again on the same book and port. */
  again(): Promise<void>
  /** Ends it and removes the book. */
  clear(): Promise<void>
}

/** Longest time a server may take to say where it listens, ms. */
const patience = 20_000

interface Started {
  readonly child: ChildProcess
  readonly url: string
  readonly said: string
}

function start(book: string, port: string, more: readonly string[]): Promise<Started> {
  const args = [join(root, 'bin/germane.mjs'), 'serve', '--book', book, '--port', port, ...more]
  const child = spawn(process.execPath, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] })
  let said = ''
  return new Promise((resolve, reject) => {
    const late = setTimeout(
      () => reject(new Error(`The server did not say where it listens. It said: ${said}`)),
      patience,
    )
    const hear = (text: Buffer): void => {
      said += text.toString()
      const url = /http:\/\/[\d.a-z]+:\d+/i.exec(said)?.[0]
      if (url === undefined || !said.includes('Ctrl+C')) return
      clearTimeout(late)
      resolve({ child, url, said })
    }
    child.stdout.on('data', hear)
    child.stderr.on('data', hear)
    child.on('exit', (code) => reject(new Error(`The server ended with ${code}. It said: ${said}`)))
  })
}

const ended = (child: ChildProcess): Promise<void> =>
  child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise((resolve) => child.once('exit', () => resolve()))

/** Runs a command to its end, as a person in a terminal beside the page. */
export function command(...args: readonly string[]): Promise<void> {
  const child = spawn(process.execPath, [join(root, 'bin/germane.mjs'), ...args], { cwd: root, stdio: 'inherit' })
  return new Promise((keep, lose) =>
    child.once('exit', (code) =>
      code === 0 ? keep() : lose(new Error(`germane ${args.join(' ')} ended with ${code}`)),
    ),
  )
}

/** Starts the built server on a new book; `more` are further options of `germane serve`. */
export async function serve(...more: readonly string[]): Promise<Served> {
  const folder = mkdtempSync(join(tmpdir(), 'germane-page-'))
  const book = join(folder, 'bench.germane')
  let { child, url, said } = await start(book, '0', more)
  const port = new URL(url).port
  const kill = async (): Promise<void> => {
    child.kill('SIGKILL')
    await ended(child)
  }
  return {
    url,
    book,
    said,
    kill,
    again: async () => {
      child = (await start(book, port, more)).child
    },
    clear: async () => {
      await kill()
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 })
    },
  }
}

export type Look = 'light' | 'dark'

export interface PageWishes {
  readonly width?: number
  readonly height?: number
  readonly look?: Look
  /** A page beside which it is opened: another window of the same browser. */
  readonly beside?: Page
  /** Words of console messages that are expected, such as a refused request. */
  readonly expected?: readonly RegExp[]
}

/** A place to test the page: one server, one browser, a guard on every page that is opened. */
export interface PageBench {
  readonly browser: Browser
  readonly served: Served
  /** Opens an address of the page and waits until it stands. */
  open(path: string, wishes?: PageWishes): Promise<Page>
}

export const telephone = { width: 390, height: 844 } as const

/** Notes whatever a page must never do: errors, breaches of the security policy, requests to anywhere else. */
function guard(page: Page, own: string, expected: readonly RegExp[], troubles: string[]): void {
  const note = (text: string): void => {
    if (!expected.some((e) => e.test(text))) troubles.push(text)
  }
  page.on('console', (m) => (m.type() === 'error' || m.type() === 'warning' ? note(m.text()) : undefined))
  page.on('pageerror', (e) => note(`uncaught: ${e.message}`))
  page.on('request', (r) => {
    const { origin, protocol } = new URL(r.url())
    if (origin !== own && protocol !== 'blob:' && protocol !== 'data:') note(`request to ${r.url()}`)
  })
}

/**
 * Tests of the page. Without a browser they fail where `CI` is set; elsewhere they are reported as not run.
 *
 * @param demo true for a book that holds the demo
 */
export function describePage(name: string, demo: boolean, tests: (bench: PageBench) => void): void {
  const isMissing = browserFile === undefined
  if (isMissing && process.env.CI !== undefined) {
    describe(name, () => {
      test('a browser', () => expect.fail('There is no Chromium. Install one, or name it in CHROMIUM.'))
    })
    return
  }
  const run = isMissing ? describe.skip : describe
  run(isMissing ? `${name} (not run: no Chromium; install one, or name it in CHROMIUM)` : name, () => {
    let served: Served
    let browser: Browser
    const contexts: BrowserContext[] = []
    const troubles: string[] = []
    beforeAll(async () => {
      ;[served, browser] = await Promise.all([serve(), launchBrowser()])
      if (demo) await fetch(`${served.url}/api/demo`, jsonPost({}))
    }, 60_000)
    afterEach(async () => {
      await Promise.all(contexts.splice(0).map((c) => c.close()))
      expect(troubles.splice(0), 'what the page must never do').toEqual([])
    })
    afterAll(async () => {
      await browser?.close()
      await served?.clear()
    })
    tests({
      get browser() {
        return browser
      },
      get served() {
        return served
      },
      async open(path, wishes = {}) {
        const { width = 1280, height = 900, look = 'light' } = wishes
        const context =
          wishes.beside?.context() ??
          (await browser.newContext({
            viewport: { width, height },
            colorScheme: look,
            hasTouch: width < 500,
            reducedMotion: 'reduce',
          }))
        if (!contexts.includes(context)) contexts.push(context)
        const page = await context.newPage()
        guard(page, served.url, wishes.expected ?? [], troubles)
        await page.goto(`${served.url}${path}`)
        await page.locator('main h1').first().waitFor()
        return page
      },
    })
  })
}

/**
 * Expects something that the page comes to by and by: asks again until it is so, and says what it was last where it
 * never comes. What is not there yet is no answer.
 *
 * @example await soon(() => rows.count()).toBe(12)
 */
export const soon = <T>(ask: () => T | Promise<T>, message = 'what the page comes to') =>
  expect.poll(ask, { timeout: 10_000, interval: 30, message })

/** The text of an element, with plain blanks: on the page a value and its unit are held together by others. */
export const textOf = async (of: Locator): Promise<string> => ((await of.textContent()) ?? '').replaceAll('\u00a0', ' ')

/** A request as the page makes it. */
export const jsonPost = (body: unknown, method = 'POST'): RequestInit => ({
  method,
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
})

/** How long nothing may change for a page to be at rest, ms. */
const rest = 200
/** How long that is waited for at most, ms: something may move for ever. */
const longest = 10_000

/**
 * Waits until a page has come to rest: nothing is on its way, and nothing has changed for a moment. Only then does it mean
 * anything that something is not there.
 */
export async function settled(page: Page): Promise<void> {
  await page.waitForLoadState('networkidle')
  await page.evaluate(`new Promise((keep) => {
    const begun = performance.now()
    let last = begun
    const watch = new MutationObserver(() => { last = performance.now() })
    watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true })
    const look = () => {
      const isBusy = document.querySelector('[aria-busy=true]') !== null
      const now = performance.now()
      if (now - begun < ${longest} && (isBusy || now - last < ${rest})) return void setTimeout(look, 30)
      watch.disconnect()
      keep()
    }
    look()
  })`)
}

/** Expects that something is not there, on a page that has come to rest. */
export async function none(of: Locator): Promise<void> {
  await settled(of.page())
  expect(await of.count(), `${of}`).toBe(0)
}

/** What axe finds wrong with a page by WCAG 2.2 AA, one line each. */
export async function violations(page: Page): Promise<readonly string[]> {
  await settled(page)
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
  const axe = new AxeBuilder({ page })
    .withTags(tags)
    .options({ resultTypes: ['violations'] })
    .setLegacyMode(true)
  const { violations: found } = await axe.analyze()
  return found.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(' ')}: ${n.failureSummary ?? ''}`))
}

/** How far the page can be moved sideways, px; 0 where it fits. */
export async function overflow(page: Page): Promise<number> {
  await settled(page)
  return page.evaluate('Math.max(0, document.documentElement.scrollWidth - innerWidth)')
}

/** Buttons, fields and links that stand alone, smaller than a thumb: WCAG 2.5.5 asks for 44 px. */
export async function smallTargets(page: Page): Promise<readonly string[]> {
  await settled(page)
  return page.evaluate(`(() => {
    const inSentence = (e) => e.tagName === 'A' && getComputedStyle(e).display === 'inline'
    return [...document.querySelectorAll('a, button, input, select, textarea, summary')]
      .filter((e) => e.getClientRects().length > 0 && !inSentence(e) && !e.closest('.skip, .vh'))
      .map((e) => [e.matches('input[type=radio], input[type=checkbox]') ? e.closest('label') ?? e : e, e])
      .filter(([box]) => box.getBoundingClientRect().height < 43.5)
      .map(([box, e]) => e.outerHTML.slice(0, 90) + ' ' + Math.round(box.getBoundingClientRect().height))
  })()`)
}

/** What has the focus, in words. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(
    `(document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '').trim()`,
  )
