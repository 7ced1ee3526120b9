import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pairUp } from '#core/match'
import { median, Random } from '#core/numeric'

/** Seconds for pairing invented parts of three parameters, and what LEMON takes for the sparse graph alone. */
export interface MatchingFigure {
  readonly parts: number
  /** From the points to the proven pairs: near neighbours, matching and proof. */
  readonly ours: number
  readonly lemon?: number
  readonly rounds: number
  readonly gap: number
}

function invented(count: number): { count: number; dimensions: number; at: Float64Array } {
  const at = new Float64Array(3 * count)
  new Random(110, 'parts').fillNormal(at)
  for (let i = 0; i < at.length; i++) at[i]! *= [6.4, 2.8, 2.8][i % 3]!
  return { count, dimensions: 3, at }
}

/** Figures of one run, medians of seven once the code is compiled. LEMON is left out where g++ or its headers are not there. */
export function matching(root: string, counts: readonly number[] = [2000, 10_000]): readonly MatchingFigure[] {
  const folder = mkdtempSync(join(tmpdir(), 'matching-'))
  try {
    const program = join(folder, 'lemon')
    const isBuilt = spawnSync('g++', ['-O2', '-o', program, join(root, 'benchmarks/matching.cpp')]).status === 0
    return counts.map((parts) => {
      const points = invented(parts)
      // the first runs are those in which the code is still being compiled; only the last answer is kept
      let got = pairUp({ points, metric: 'distance' })
      const runs = Array.from({ length: parts > 5000 ? 9 : 60 }, () => {
        const began = performance.now()
        got = pairUp({ points, metric: 'distance' })
        return (performance.now() - began) / 1000
      }).slice(-7)
      const lemon = isBuilt ? lemonSeconds(program, points) : undefined
      return {
        parts,
        ours: median(runs),
        ...(lemon === undefined ? {} : { lemon }),
        rounds: got.rounds,
        gap: (got.cost - got.bound) / got.cost,
      }
    })
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** LEMON on the graph of the 16 nearest neighbours. */
function lemonSeconds(program: string, points: ReturnType<typeof invented>): number | undefined {
  const edges = nearest(points, 16)
  const input = `${points.count} ${edges.length}\n${edges.map(([a, b, w]) => `${a} ${b} ${w}`).join('\n')}\n`
  const ran = spawnSync(program, ['5'], { input, encoding: 'utf8', maxBuffer: 1e8 })
  if (ran.status !== 0) return undefined
  return median(
    ran.stdout
      .trim()
      .split('\n')
      .map((line) => Number(line.split(' ')[0])),
  )
}

function nearest(
  { count, at }: ReturnType<typeof invented>,
  k: number,
): readonly (readonly [number, number, number])[] {
  const edges = new Map<number, readonly [number, number, number]>()
  for (let i = 0; i < count; i++) {
    const apart = Float64Array.from({ length: count }, (_, j) =>
      Math.hypot(at[3 * i]! - at[3 * j]!, at[3 * i + 1]! - at[3 * j + 1]!, at[3 * i + 2]! - at[3 * j + 2]!),
    )
    const limit = apart.slice().sort()[k]!
    for (let j = 0; j < count; j++) {
      if (j === i || apart[j]! > limit) continue
      const [a, b] = i < j ? [i, j] : [j, i]
      edges.set(a * count + b, [a, b, Math.round(1e12 * apart[j]!)])
    }
  }
  return [...edges.values()]
}
