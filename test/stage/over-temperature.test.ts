import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import {
  doesWork,
  exactly,
  type LimitOver,
  makeStage,
  overTemperature,
  type Position,
  stageAnswer,
  stageAt,
  stageVerdict,
  tableOf,
  templates,
} from '#core/stage'
import { expectRelative } from '#core/testing'
import { partsFor, positionOf, transistor } from './positions.ts'

/** A position of every template, and a part of its own for each number: some work there, some drift, some fail. */
function drawn(k: number) {
  const random = new Random(41, `stage ${k}`)
  const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
  const { id, main, places } = templates[k % templates.length]!
  const position = positionOf(id, { polarity: random.uniform() < 0.5 ? 'PNP' : 'NPN' })
  const { drift, toC, ...demands } = position.demands
  const strict = { ...demands, drift: drift * between(0.2, 1), toC: toC + 20 * (random.uniform() - 0.5) }
  const isOpposite = places.find((p) => p.ref === main)!.isOpposite === true
  const part = transistor({
    polarity: (position.polarity === 'PNP') === isOpposite ? 'NPN' : 'PNP',
    gain: exactly(between(15, 300)),
    leakageA: exactly(between(1e-7, 2e-5)),
    ratings: { rthKPerW: between(50, 800), junctionMaxC: 80, voltageV: 15, currentA: 0.05 },
  })
  const strained = { ...position, demands: strict }
  const isDiode = places.find((p) => p.ref === main)!.kind === 'D'
  return { position: strained, parts: isDiode ? partsFor(strained) : partsFor(strained, part), isDiode }
}

const some = Array.from({ length: 70 }, (_, k) => drawn(k)).filter((x) => !x.isDiode)

/** Of the limits that fail within the temperatures the nearest to 25 degC, the grave ones first: what a verdict is of. */
function firstOf(limits: readonly LimitOver[], { demands: { fromC, toC } }: Position): LimitOver | undefined {
  const away = (l: LimitOver): number => Math.abs(l.failsAtC! - 25)
  const failing = limits.filter((l) => l.failsAtC !== undefined)
  const inside = failing.filter((l) => l.failsAtC! >= fromC && l.failsAtC! <= toC)
  const grave = inside.filter((l) => l.isSoft !== true)
  const [first] = [...(grave.length > 0 ? grave : inside.length > 0 ? inside : failing)].sort(
    (a, b) => away(a) - away(b),
  )
  return first
}

describe('quick ways tell what the whole way tells', () => {
  test('stages of all kinds were drawn', () => {
    const words = some.map(({ position, parts }) => stageVerdict(position, parts).word)
    for (const word of ['works', 'works but drifts', 'will not'])
      expect(words.filter((w) => w === word).length).toBeGreaterThan(4)
  })

  test('a verdict is that of every limit followed to the temperature at which it fails', () => {
    for (const [k, { position, parts }] of some.entries()) {
      const { limits } = overTemperature(makeStage(position, parts))
      const verdict = stageVerdict(position, parts)
      const first = firstOf(limits, position)
      if (first === undefined) {
        expect(verdict, `stage ${k}`).toMatchObject({ word: 'works' })
        expect(verdict.failsAtC, `stage ${k}`).toBeUndefined()
        continue
      }
      // several may fail between the same two temperatures, within the accuracy of the search
      expectRelative(verdict.failsAtC!, first.failsAtC!, 1e-9, `stage ${k}`)
      expect(limits.find((l) => l.limit === verdict.limit)?.failsAtC, `stage ${k}`).toBe(verdict.failsAtC)
    }
  })

  test('whether a part works is its verdict', () => {
    for (const [k, { position, parts }] of some.entries())
      expect(doesWork(position, parts), `stage ${k}`).toBe(stageVerdict(position, parts).word !== 'will not')
  })

  test('points over temperature are those of the whole answer', () => {
    for (const { position, parts } of some.slice(0, 12))
      expect(tableOf(makeStage(position, parts))).toEqual(stageAnswer(position, parts, { count: 0 }).table)
  })
})

describe('a limit that is passed on both sides', () => {
  // gain rises with temperature, and with it the current of a fixed bias: a tenth less in the cold, a tenth more in the heat
  const wide = positionOf('fixed-bias')
  const silicon = transistor({ material: 'Si', leakageA: exactly(1e-9), vbeV: exactly(0.6), gain: exactly(150) })
  const change = (temperatureC: number): number => {
    const s = makeStage(wide, partsFor(wide, silicon))
    const [at, cool] = [temperatureC, 25].map((t) => stageAt(s, t))
    if (at?.kind !== 'point' || cool?.kind !== 'point') throw new Error('no point')
    return at.point.ic / cool.point.ic - 1
  }
  const drift = Math.abs(change(8))
  const position = { ...wide, demands: { ...wide.demands, fromC: 0, toC: 35, drift } }

  test('passed in the cold within the temperatures, and in the heat beyond them: the cold one is told', () => {
    expect(change(8)).toBeLessThan(0)
    expect(change(35)).toBeGreaterThan(0)
    expect(change(35)).toBeLessThan(drift)
    expect(change(60)).toBeGreaterThan(drift)
    const verdict = stageVerdict(position, partsFor(position, silicon))
    expect(verdict).toMatchObject({ word: 'works but drifts', limit: 'drift' })
    expect(Math.abs(verdict.failsAtC! - 8)).toBeLessThan(0.06)
  })

  test('passed on both within them: the nearer to 25 degC', () => {
    const both = { ...position, demands: { ...position.demands, toC: 60 } }
    const found = stageVerdict(both, partsFor(both, silicon)).failsAtC!
    const hot = [...Array(350).keys()].map((k) => 25 + k / 10).find((t) => change(t) > drift)!
    expect(Math.abs(found - (hot - 25 < 25 - 8 ? hot : 8))).toBeLessThan(0.16)
  })
})
