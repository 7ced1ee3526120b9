import { spawn } from 'node:child_process'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { matchParts } from '#core/match'
import { median, Random } from '#core/numeric'

/** Whole process of pairing a table of a hundred thousand parts. */
export interface LargeMatching {
  readonly seconds: number
  /** Share of the total above the proven bound. */
  readonly gap: number
  /** Most memory, MB; left out where the system does not say. */
  readonly megabytes?: number
}

const count = 100_000

/** Pairs invented parts of three parameters as a person does it at the command line. */
export async function largeMatching(root: string, folder: string): Promise<LargeMatching> {
  const at = new Float64Array(3 * count)
  new Random(110, 'parts').fillNormal(at)
  const rows = Array.from({ length: count }, (_, i) => `P${i},${at[3 * i]},${at[3 * i + 1]},${at[3 * i + 2]}`)
  const file = join(folder, 'parts.csv')
  writeFileSync(file, `tag,a,b,c\n${rows.join('\n')}\n`)
  const args = [join(root, 'bin/germane.mjs'), 'match', file, '--by', 'a:0.156,b:0.357,c:0.357', '--json']
  const began = performance.now()
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
  let said = ''
  let megabytes = 0
  const watch = setInterval(() => {
    megabytes = Math.max(megabytes, highWater(child.pid))
  }, 200)
  child.stdout.on('data', (text: Buffer) => {
    said += text.toString()
  })
  await new Promise<void>((keep) => child.on('close', () => keep()))
  clearInterval(watch)
  const seconds = (performance.now() - began) / 1000
  const { gap } = (JSON.parse(said) as { proof: { gap: number } }).proof
  return { seconds, gap, ...(megabytes === 0 ? {} : { megabytes }) }
}

/** The most memory a process had, MB; 0 where the system does not say. */
function highWater(pid: number | undefined): number {
  const file = `/proc/${pid}/status`
  if (!existsSync(file)) return 0
  return Number(/VmHWM:\s+(\d+) kB/.exec(readFileSync(file, 'utf8'))?.[1] ?? 0) / 1000
}

/** Pairing 500 parts under a tolerance that is drawn in step by step, as the page does it; median, s. */
export function drawnTolerance(): number {
  const at = new Float64Array(1000)
  new Random(5, 'drawer').fillNormal(at)
  const parts = Array.from({ length: 500 }, (_, i) => ({
    tag: `P${i}`,
    values: { a: at[2 * i]!, b: at[2 * i + 1]! },
  }))
  const times = Array.from({ length: 21 }, (_, k) => {
    const began = performance.now()
    matchParts(parts, {
      size: 2,
      by: [
        { name: 'a', scale: 1, weight: 1, within: { absolute: 0.5 - 0.02 * k } },
        { name: 'b', scale: 1, weight: 1 },
      ],
      objective: 'pair-distance',
      same: [],
      together: [],
      exclude: [],
      reserve: [],
      seed: 1,
    })
    return (performance.now() - began) / 1000
  })
  return median(times)
}
