import { expect, test } from 'vitest'
import { onBench, positionFromText, standInsAt } from '#bench'
import { stageExampleYaml } from '#core/stage'

const read = positionFromText(stageExampleYaml, 'position')

/** Time of the processor that something takes, us: what else runs beside it does not count. */
async function spent(work: () => Promise<unknown>): Promise<number> {
  const before = process.cpuUsage()
  await work()
  return process.cpuUsage(before).user
}

test('a search that is stopped ends with the candidate it plays, and says so', async () => {
  await onBench({ now: () => '2026-01-05T10:00:00Z' }, async (bench) => {
    await standInsAt(bench, read)
    const whole = await spent(() => standInsAt(bench, read))
    const stopped = await spent(async () => {
      const stop = new AbortController()
      const search = standInsAt(bench, read, { signal: stop.signal })
      setImmediate(() => stop.abort())
      await expect(search).rejects.toThrow('The search for stand-ins was stopped')
    })
    expect(stopped).toBeLessThan(0.8 * whole)
    console.log(`stopped after ${(stopped / whole).toFixed(2)} of the whole`)
  })
}, 60_000)
