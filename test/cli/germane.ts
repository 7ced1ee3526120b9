import { type ChildProcess, spawn } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import { afterAll, beforeAll, expect, vi } from 'vitest'

/** What a command said and how it ended. */
export interface Said {
  /** Exit code; null where a signal ended it. */
  readonly code: number | null
  readonly out: string
  readonly err: string
}

export interface Around {
  /** Typed into it; nothing where left out. */
  readonly input?: string | Uint8Array
  readonly env?: Readonly<Record<string, string>>
}

/** The built command in a folder of its own, for one test file. */
export interface Germane {
  /** Runs it to its end. */
  readonly run: (args: readonly string[], around?: Around) => Promise<Said>
  /** Starts it and leaves its input open. */
  readonly start: (args: readonly string[]) => Talk
  /** Writes a file beside the command and gives its name. */
  readonly write: (name: string, text: string | Uint8Array) => string
  readonly read: (name: string) => string
  readonly bytes: (name: string) => Buffer
  readonly path: (name: string) => string
}

/** A command that is still being talked to. */
export interface Talk {
  readonly child: ChildProcess
  readonly type: (line: string) => void
  /** Is kept when it has said this, or rejected when it ends before, or takes too long. */
  readonly until: (text: string) => Promise<void>
  /** How it ended; wait for it with `within`. */
  readonly ended: Promise<Said>
}

const root = join(import.meta.dirname, '..', '..')

/** Starting processes is slow where many things run at once. */
const longestMs = 180_000

/** Builds the command once for a test file, beside the packages it needs. */
export function germane(): Germane {
  vi.setConfig({ testTimeout: longestMs, hookTimeout: longestMs })
  const home = join(root, 'node_modules', '.cache', `germane-cli-${process.pid}`)
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'germane-cli-')))
  beforeAll(async () => {
    mkdirSync(join(home, 'dist'), { recursive: true })
    cpSync(join(root, 'bin'), join(home, 'bin'), { recursive: true })
    await buildInto(join(home, 'dist'))
  })
  afterAll(() => {
    rmSync(home, { recursive: true, force: true })
    rmSync(folder, { recursive: true, force: true })
  })
  const begin = (args: readonly string[], env: Around['env'] = {}): ChildProcess =>
    spawn(process.execPath, [join(home, 'bin', 'germane.mjs'), ...args], {
      cwd: folder,
      env: { ...withoutBook(process.env), ...env },
      stdio: 'pipe',
    })
  const path = (name: string): string => join(folder, name)
  return {
    run: (args, around = {}) => {
      const child = begin(args, around.env)
      child.stdin?.on('error', () => undefined)
      child.stdin?.end(around.input ?? '')
      return heard(child).ended
    },
    start: (args) => talk(begin(args)),
    write: (name, text) => {
      writeFileSync(path(name), text)
      return name
    },
    read: (name) => readFileSync(path(name), 'utf8'),
    bytes: (name) => readFileSync(path(name)),
    path,
  }
}

function withoutBook({ GERMANE_BOOK: _, ...env }: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  return env
}

async function buildInto(outdir: string): Promise<void> {
  await build({
    entryPoints: {
      germane: join(root, 'src/cli/main.ts'),
      'germane-fit-worker': join(root, 'src/bench/fit-worker.ts'),
      'germane-match-worker': join(root, 'src/bench/match-worker.ts'),
    },
    outdir,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external: ['better-sqlite3', '@resvg/resvg-js', 'highs'],
    banner: { js: "import { createRequire as r } from 'node:module'; const require = r(import.meta.url);" },
    outExtension: { '.js': '.mjs' },
    logLevel: 'warning',
  })
}

/** Keeps a promise that comes in time; else says what was heard until then. */
export function within<T>(promise: Promise<T>, what: () => string, ms = longestMs / 3): Promise<T> {
  let late: ReturnType<typeof setTimeout>
  const over = new Promise<never>((_, lose) => {
    late = setTimeout(() => lose(new Error(`${what()} did not come within ${ms / 1000} s`)), ms)
  })
  return Promise.race([promise, over]).finally(() => clearTimeout(late))
}

function heard(child: ChildProcess): { readonly now: () => string; readonly ended: Promise<Said> } {
  let out = ''
  let err = ''
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    out += text
  })
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    err += text
  })
  const ended = new Promise<Said>((keep) => child.on('close', (code) => keep({ code, out, err })))
  return { now: () => out, ended }
}

function talk(child: ChildProcess): Talk {
  const { now, ended } = heard(child)
  return {
    child,
    type: (line) => void child.stdin?.write(`${line}\n`),
    until: (text) => {
      const said = new Promise<void>((keep, lose) => {
        const look = (): void => {
          if (!now().includes(text)) return
          child.stdout?.off('data', look)
          keep()
        }
        child.stdout?.on('data', look)
        child.on('close', () => lose(new Error(`ended without saying "${text}": ${now()}`)))
        look()
      })
      return within(said, () => `"${text}" after: ${now()}`)
    },
    ended,
  }
}

/** The one JSON document on stdout of a command that did what was asked, with nothing beside it. */
export function oneDocument(said: Said, codes: readonly (number | null)[] = [0]): Record<string, unknown> {
  expect(said.err).toBe('')
  expect(codes, said.out.slice(0, 400)).toContain(said.code)
  const document = JSON.parse(said.out) as Record<string, unknown>
  expect(said.out.endsWith('}\n')).toBe(true)
  return document
}

/** Sentences of a command that refused: on stderr alone, exit code 2. */
export function refusal(said: Said): string {
  expect(said.err).not.toContain('Germane itself failed')
  expect(said.err).not.toMatch(/\n\s+at /)
  expect({ code: said.code, out: said.out }).toEqual({ code: 2, out: '' })
  return said.err
}

/** Runs jobs a few at a time: starting a process is most of what a command costs. */
export async function fewAtATime<T>(jobs: readonly T[], run: (job: T) => Promise<void>): Promise<void> {
  const waiting = [...jobs]
  const worker = async (): Promise<void> => {
    for (let job = waiting.shift(); job !== undefined; job = waiting.shift()) await run(job)
  }
  await Promise.all([worker(), worker(), worker()])
}

/** Arguments that are refused, what the sentence says, and what is typed into the command. */
export type Refused = readonly [args: readonly string[], says: RegExp, input?: string | Buffer]

/** Runs commands a few at a time and holds what each refuses with; every sentence ends in a mend. */
export const refuses = (g: Germane, jobs: readonly Refused[]): Promise<void> =>
  fewAtATime(jobs, async ([args, says, input]) => {
    const said = refusal(await g.run(args, input === undefined ? {} : { input }))
    expect(said, args.join(' ')).toMatch(says)
    if (!said.startsWith('{')) expect(said, 'a mend').toMatch(/[.?]\s*$/)
  })
