import { expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { exactly, makeStage, stageAt } from '#core/stage'
import { comesNearRest, comesToRest, readPlace, roughShare } from '../../src/core/stage/stage-point.ts'
import { partsFor, positionOf, transistor } from './positions.ts'

const ids = ['fixed-bias', 'emitter-resistor', 'divider', 'collector-feedback', 'follower', 'direct-pair', 'push-pull']

test('a rough rest has its currents within its share of the precise one, and none where that has none', () => {
  let [ran, warmest, worst, spoiled] = [0, 0, 0, 0]
  for (let k = 0; k < 210; k++) {
    const random = new Random(19, `rest ${k}`)
    const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
    const position = positionOf(ids[k % ids.length]!)
    const part = transistor({
      gain: exactly(between(20, 300)),
      leakageA: exactly(between(1e-7, 3e-5)),
      ratings: { rthKPerW: between(30, 4000) },
    })
    const [precise, rough] = [
      makeStage(position, partsFor(position, part)),
      makeStage(position, partsFor(position, part)),
    ]
    for (const t of [25, 50, 0]) {
      const rest = comesToRest(precise, t)
      const isNear = comesNearRest(rough, t)
      expect(isNear, `stage ${k} at ${t} degC`).toBe(typeof rest !== 'string')
      if (typeof rest === 'string') {
        ran++
        continue
      }
      const [ic, found] = [readPlace(precise).ic, readPlace(rough).ic]
      worst = Math.max(worst, Math.abs(found / ic - 1))
      warmest = Math.max(warmest, rest.junctionC - t)
      const whole = stageAt(precise, t)
      if (whole.kind === 'point' && whole.point.loopGain > 0.3) spoiled++
    }
  }
  expect(worst).toBeLessThan(roughShare)
  // parts that hardly heat themselves, those that nearly run away, and those that do were among them
  expect(warmest).toBeGreaterThan(15)
  expect(spoiled).toBeGreaterThan(3)
  expect(ran).toBeGreaterThan(10)
})
