import { type ChildProcessByStdio, spawn } from 'node:child_process'
import { mkdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import type { Readable, Writable } from 'node:stream'
import { build } from 'esbuild'
import { afterAll, beforeAll } from 'vitest'

/** A child that runs, and what it has said so far. */
export interface Child {
  readonly process: ChildProcessByStdio<Writable, Readable, null>
  /** Complete lines only: a line that a kill cut off was not said. */
  readonly lines: readonly string[]
  /** Is kept when the child has said this, or has ended. */
  readonly until: (line: string) => Promise<void>
  /** Is kept when the child has said so many lines, or has ended. */
  readonly untilLines: (count: number) => Promise<void>
  /** Is kept when the child has ended, with its exit code (null where it was killed). */
  readonly ended: Promise<number | null>
}

/** What to put before the child's own command line, to run it in surroundings of its own. */
export type Around = (command: readonly string[]) => readonly string[]

/** Bundles the child once for a test file, beside the packages it needs, and starts it as often as asked. */
export function children(around: Around = (command) => command): (...args: string[]) => Child {
  const root = join(import.meta.dirname, '..', '..')
  const folder = join(root, 'node_modules', '.cache', `germane-faults-${process.pid}`)
  const outfile = join(folder, 'child.mjs')
  beforeAll(async () => {
    mkdirSync(folder, { recursive: true })
    await build({
      entryPoints: [join(import.meta.dirname, 'child.ts')],
      outfile,
      bundle: true,
      minify: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      external: ['better-sqlite3', '@resvg/resvg-js', 'highs'],
      banner: { js: "import { createRequire as r } from 'node:module'; const require = r(import.meta.url);" },
      logLevel: 'warning',
    })
  })
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  return (...args) => start(around([process.execPath, outfile, ...args]))
}

function start([program = '', ...args]: readonly string[]): Child {
  const child = spawn(program, args, { stdio: ['pipe', 'pipe', 'inherit'] })
  const lines: string[] = []
  const waiting = new Set<() => void>()
  let rest = ''
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    const said = (rest + text).split('\n')
    rest = said.pop() ?? ''
    lines.push(...said)
    for (const look of [...waiting]) look()
  })
  const ended = new Promise<number | null>((keep) => {
    child.on('close', (code) => {
      keep(code)
      for (const look of [...waiting]) look()
    })
  })
  const untilTrue = (isSaid: () => boolean): Promise<void> =>
    new Promise((keep) => {
      const look = (): void => {
        if (!isSaid() && child.exitCode === null && child.signalCode === null) return
        waiting.delete(look)
        keep()
      }
      waiting.add(look)
      look()
    })
  const until = (line: string): Promise<void> => untilTrue(() => lines.includes(line))
  const untilLines = (count: number): Promise<void> => untilTrue(() => lines.length >= count)
  return { process: child, lines, until, untilLines, ended }
}
