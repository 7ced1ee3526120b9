import { spawnSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { keepReadingsOnly, layBench, makeBook, testerNamed } from '#bench'
import { median } from '#core/numeric'

function wholeProcess(args: readonly string[], runs: number): number {
  const seconds: number[] = []
  for (let i = 0; i < runs; i++) {
    const start = performance.now()
    const run = spawnSync(process.execPath, args, { stdio: ['ignore', 'ignore', 'pipe'], encoding: 'utf8' })
    seconds.push((performance.now() - start) / 1000)
    if (run.status !== 0 && run.status !== 1) throw new Error(`${args.join(' ')} failed: ${run.stderr}`)
  }
  return median(seconds)
}

/** Start-up of the command, beside that of a bare Node. */
export const helpStart = (root: string): { readonly germane: number; readonly node: number } => ({
  germane: wholeProcess([join(root, 'bin/germane.mjs'), '--help'], 11),
  node: wholeProcess(['-e', '0'], 11),
})

/** A lot of germanium transistors, four readings each. */
export function lotCsv(readings: number): string {
  const rows = ['part,type,reads,shown,range,point,supply,ambient']
  for (let part = 0; rows.length <= readings; part++) {
    const gain = 60 + ((part * 37) % 110)
    rows.push(
      `P${part},2N1305,I_CBO,${(1 + (part % 9) * 0.3).toFixed(1)} div,100 uA,1,9 V,21 C`,
      `P${part},2N1305,I_CEO,${(6 + (part % 17)).toFixed(1)} div,300 uA,1,3 V,21 C`,
      `P${part},2N1305,I_C,50 div,10 mA,1,1.5 V,21 C`,
      `P${part},2N1305,h_FE,${gain},middle,1,1.5 V,21 C`,
    )
  }
  return `${rows.slice(0, readings + 1).join('\n')}\n`
}

/** Judging 10,000 readings as a person does it, and as a script does. */
export function judging(root: string, folder: string): { readonly text: number; readonly json: number } {
  const file = join(folder, 'lot.csv')
  writeFileSync(file, lotCsv(10_000))
  const judge = [join(root, 'bin/germane.mjs'), 'judge', file, '--tester', 'larkfield']
  return { text: wholeProcess(judge, 3), json: wholeProcess([...judge, '--json'], 1) }
}

/** Reading a file of 100,000 readings and keeping them in one durable transaction. */
export async function importing(folder: string): Promise<number> {
  const text = lotCsv(100_000)
  const seconds: number[] = []
  for (let i = 0; i < 3; i++) {
    const file = join(folder, `book-${i}.germane`)
    await makeBook(file, '2026-01-01T00:00:00.000Z')
    const bench = await layBench({ bookFile: file, now: () => '2026-01-01T00:00:00.000Z' })
    const known = testerNamed(bench, 'larkfield')
    const start = performance.now()
    await keepReadingsOnly(bench, { text, file: 'lot.csv', tester: known.tester, known })
    seconds.push((performance.now() - start) / 1000)
    if (bench.book !== undefined) bench.book.driver.close()
  }
  return median(seconds)
}
