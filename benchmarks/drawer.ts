import { join } from 'node:path'
import { fitDrawer } from '#bench'
import { curveExampleCsv, type FitKind } from '#core/fit'
import { Random } from '#core/numeric'

/**
 * Fits a drawer of 1,000 curves on one thread and on two, and prints how long each took: `node scripts/bench.mjs drawer`.
 * The curves are the examples of the command with every current greater by a factor and scattered by 0.4 %, seeded. The
 * least of some runs counts. On a machine that does other work as well the figures say little.
 */
const root = process.argv[2]!
const count = Number(process.argv[3] ?? 1000)
const runs = 3

/** One standard normal value after the other. */
function normals(random: Random): () => number {
  const one = new Float64Array(1)
  return () => {
    random.fillNormal(one)
    return one[0]!
  }
}

function drawerOf(kind: FitKind, normal: () => number): readonly { readonly file: string; readonly text: string }[] {
  return Array.from({ length: count }, (_, i) => {
    const factor = Math.exp(normal() / 3)
    const scattered = (cell: string, more: number): string =>
      cell === '' ? '' : (Number(cell) * more * (1 + 0.004 * normal())).toPrecision(4)
    const text = curveExampleCsv[kind].replaceAll(
      /^([\d.,]*,)([\d.e-]+)$/gm,
      (_, driven: string, current: string) => `${driven}${scattered(current, factor)}`,
    )
    return { file: `${kind}-${i}.csv`, text }
  })
}

async function secondsOn(workers: number, kind: FitKind, files: ReturnType<typeof drawerOf>): Promise<number> {
  const begun = performance.now()
  const { outcomes } = await fitDrawer({
    files,
    wishes: { kind, temperatureC: 23 },
    workers,
    workerFile: join(root, 'dist/germane-fit-worker.mjs'),
    signal: new AbortController().signal,
  })
  const failed = outcomes.filter((o) => 'faults' in o).length
  if (outcomes.length !== count || failed > 0) throw new Error(`${failed} of ${outcomes.length} curves did not fit`)
  return (performance.now() - begun) / 1000
}

for (const kind of ['diode', 'bjt'] as const) {
  const files = drawerOf(kind, normals(new Random(5)))
  const least: Record<number, number> = {}
  for (let run = 0; run < runs; run++)
    for (const workers of [1, 2])
      least[workers] = Math.min(least[workers] ?? Number.POSITIVE_INFINITY, await secondsOn(workers, kind, files))
  const [one, two] = [least[1]!, least[2]!]
  console.log(
    `${count} curves of a ${kind}: ${one.toFixed(2)} s on one thread, ${two.toFixed(2)} s on two, ${(one / two).toFixed(2)} times as quick`,
  )
}
