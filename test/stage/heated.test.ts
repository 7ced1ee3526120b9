import { describe, expect, test } from 'vitest'
import { compileCircuit, pointOf, setPartTemperature, solve, writeNetlist } from '#core/circuit'
import { Random } from '#core/numeric'
import { kelvin } from '#core/physics'
import { nearestPreferred } from '#core/resistor'
import {
  exactly,
  makeStage,
  type Position,
  reBias,
  restOf,
  runawayText,
  stageAt,
  stageCircuit,
  stageSpread,
  type TransistorNumbers,
} from '#core/stage'
import { expectRelative, hasSimulator, simulated } from '#core/testing'
import { exampleOhm, partsFor, positionOf, transistor } from './positions.ts'
import { changed, leastOfAll, silicon, withOhm } from './re-biased.ts'

/** Parts that heat themselves where many stages are looked at, and where resistors are chosen. */

const hot = (rthKPerW: number): Pick<TransistorNumbers, 'ratings'> => ({ ratings: { rthKPerW } })

/** Junctions above this are taken to run away, as the stage takes germanium and silicon, degC. */
const ceilingC = { Ge: 150, Si: 250 } as const

/**
 * A stage of one transistor at rest, apart from the stage's own search: the junction goes where its heat puts it, over and
 * over, each time by a whole operating point from nothing.
 */
function restsAt(position: Position, part: TransistorNumbers, ambientC: number) {
  const circuit = stageCircuit(position, partsFor(position, part))
  let junctionC = ambientC
  for (let k = 0; k < 400; k++) {
    const c = compileCircuit(circuit, { temperatureC: ambientC })
    setPartTemperature(c, 'Q1', kelvin(junctionC))
    const q = pointOf(c, solve(c)).devices.Q1
    if (q?.kind !== 'bipolar') throw new Error('no point')
    const next = ambientC + part.ratings.rthKPerW! * q.power
    if (next > ceilingC[part.material]) return undefined
    if (Math.abs(next - junctionC) < 1e-9) return { ic: q.ic, vce: q.vce, junctionC }
    junctionC = next
  }
  throw new Error('it does not settle')
}

/** Current in air of 25 degC, and drift, as `restsAt` has them; nothing where the part runs away. */
function lookedHot(position: Position, part: TransistorNumbers) {
  const { fromC, toC } = position.demands
  const points = [25, fromC, (fromC + 25) / 2, (25 + toC) / 2, toC].map((t) => restsAt(position, part, t))
  if (points.some((p) => p === undefined)) return undefined
  const ic = points[0]!.ic
  return { ic, vce: points[0]!.vce, drift: Math.max(...points.slice(1).map((p) => Math.abs(p!.ic / ic - 1))) }
}

/** A stage of its own for each number, its parts with heat resistances of small cans. */
function drawn(k: number) {
  const random = new Random(91, `position ${k}`)
  const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
  const id = ['fixed-bias', 'emitter-resistor', 'collector-feedback', 'divider'][k % 4]!
  // currents high enough for the parts to become warm
  const ohm = Object.fromEntries(
    Object.entries(exampleOhm(id)).map(([ref, r]) => [ref, nearestPreferred(r * between(0.25, 0.4), 'E24')]),
  )
  const position = positionOf(id, { ohm, demands: { ...positionOf(id).demands, swingV: 0.2 } })
  const part = transistor({ gain: exactly(between(40, 70)), ...hot(between(150, 350)) })
  const other = silicon(between(60, 250), hot(between(150, 400)))
  return { k, position, part, other }
}

describe('re-bias', () => {
  const all = Array.from({ length: 24 }, (_, k) => drawn(k))
  const usable = all.filter(({ position, part }) => (lookedHot(position, part)?.vce ?? 0) > 0.4)

  test('most stages have a rest with their first part, and are warm', () => {
    expect(usable.length).toBeGreaterThan(12)
    const rises = usable.map(({ position, part }) => restsAt(position, part, 25)!.junctionC - 25)
    expect(Math.max(...rises)).toBeGreaterThan(5)
  })

  test('rests are those of whole operating points that heat themselves', () => {
    for (const { k, position, part } of usable) {
      const wanted = lookedHot(position, part)!
      const got = restOf(position, partsFor(position, part))!
      expectRelative(got.ic, wanted.ic, 1e-6, `I_C of ${k}`)
      expect(Math.abs(got.drift - wanted.drift), `drift of ${k}`).toBeLessThan(1e-6)
    }
  })

  test('brings the current of the warm part back, and no worse drift', () => {
    let moved = 0
    for (const { k, position, part, other } of usable) {
      const got = reBias(position, partsFor(position, part), other)!
      if (got.changes === undefined) continue
      const before = lookedHot(position, part)!
      const after = lookedHot(withOhm(position, changed(got.changes)), other)!
      expect(Math.abs(after.ic / before.ic - 1), `position ${k}`).toBeLessThanOrEqual(0.05 + 1e-6)
      expect(after.drift, `position ${k}`).toBeLessThanOrEqual(before.drift * (1 + 1e-6))
      const cold = { ...part, ratings: {} }
      const without = reBias(position, partsFor(position, cold), { ...other, ratings: {} })?.changes
      if (JSON.stringify(without) !== JSON.stringify(got.changes)) moved++
    }
    // it is not the answer of parts that stay cool
    expect(moved).toBeGreaterThan(3)
  })

  test('by the least change of a search of all values', () => {
    const some = usable.filter(({ position }) => position.template.settles.length <= 2).slice(0, 8)
    expect(some).toHaveLength(8)
    for (const { k, position, part, other } of some) {
      const look = (p: Position, n: unknown) => lookedHot(p, n as TransistorNumbers)
      const before = restOf(position, partsFor(position, part))!
      const hasRoom = (stage: Position): boolean => {
        const rest = restOf(stage, partsFor(stage, other))
        return rest?.rooms.every((room, i) => room >= Math.min(0.2, before.rooms[i]!) - 1e-9) ?? false
      }
      const tried = { position, part, other, series: 'E12', span: 3 } as const
      const best = leastOfAll(tried, (p) => hasRoom(p) && (lookedHot(p, other)?.vce ?? 0) >= 0.2, look)
      const got = reBias(position, partsFor(position, part), other, { series: 'E12', span: 3 })!
      expect(got.changes?.length, `position ${k}`).toBe(best?.count)
      const cost = got.changes?.reduce((sum, c) => sum + Math.abs(Math.log(c.toOhm / c.fromOhm)), 0) ?? 0
      expect(Math.abs(cost - (best?.cost ?? 0)), `position ${k}`).toBeLessThan(1e-9)
    }
  })

  /** With a heat resistance beyond what the fixed bias can stand nothing restores it: the values that would are runaway. */
  test('values with which the other part runs away do not count', () => {
    const position = positionOf('fixed-bias', { ohm: { ...exampleOhm('fixed-bias'), RB: 100e3, RC: 22 } })
    const part = transistor({ gain: exactly(60), ...hot(100) })
    const leaky = transistor({ name: 'leaky', gain: exactly(60), leakageA: exactly(30e-6), ...hot(2000) })
    const got = reBias(position, partsFor(position, part), leaky)!
    expect(got.before.ic).toBeGreaterThan(0)
    expect(got.changes).toBeUndefined()
    expect(got.unchanged).toBeUndefined()
  })
})

describe.runIf(hasSimulator())('as ngspice has it, the junction put where its heat puts it', () => {
  /** Collector current at rest by ngspice, its Q1 at the temperature that R_th and its own power give. */
  function simulatedRest(position: Position, part: TransistorNumbers, ambientC: number): number {
    const circuit = stageCircuit(position, partsFor(position, part))
    const netlist = writeNetlist({ ...circuit, temperatureC: ambientC, gminS: 1e-15 })
    let junctionC = ambientC
    for (let k = 0; k < 40; k++) {
      const text = netlist.replace(/^(Q1 .*)$/m, `$1 temp=${junctionC.toFixed(9)}`)
      const { '@q1[ic]': ic, '@q1[p]': p } = simulated(text, ['@q1[ic]', '@q1[p]'])
      const next = ambientC + part.ratings.rthKPerW! * p!
      if (Math.abs(next - junctionC) < 1e-5) return Math.abs(ic!)
      junctionC = next
    }
    throw new Error('it does not settle')
  }

  test.each([0, 1, 2, 3])('position %i', (k) => {
    const { position, part, other } = drawn(k)
    const got = reBias(position, partsFor(position, part), other)!
    const before = simulatedRest(position, part, 25)
    expectRelative(got.before.ic, before, 1e-4, 'I_C before')
    expect(got.changes).toBeDefined()
    const after = [25, 50].map((t) => simulatedRest(withOhm(position, changed(got.changes!)), other, t))
    expectRelative(got.after!.ic, after[0]!, 1e-4, 'I_C after')
    expect(Math.abs(after[0]! / before - 1)).toBeLessThanOrEqual(0.05 + 1e-4)
    expect(got.after!.drift).toBeGreaterThanOrEqual(Math.abs(after[1]! / after[0]! - 1) - 1e-4)
  })
})

describe('spread', () => {
  // a load that does not hold the power back
  const ohm = { ...exampleOhm('fixed-bias'), RB: 150e3, RC: 2 }
  const part = transistor({ gain: exactly(60), ...hot(200) })
  const position = positionOf('fixed-bias', { ohm, tolerance: { RB: 0.1 } })
  const at = (share: number, ambientC: number) =>
    stageAt(makeStage(withOhm(position, { RB: ohm.RB * (1 + share) }), partsFor(position, part)), ambientC)
  const icAt = (share: number): number => {
    const outcome = at(share, 25)
    return outcome.kind === 'point' ? outcome.point.ic : Number.NaN
  }

  test('one tolerance alone: 95 % of the warm stages lie where its ends put them', () => {
    const [spread] = stageSpread(position, partsFor(position, part), [25], { count: 2000, seed: 3 }).at
    expectRelative(spread!.ic[0], icAt(0.095), 0.004, 'low')
    expectRelative(spread!.ic[2], icAt(-0.095), 0.004, 'high')
    const cold = stageSpread(position, partsFor(position, { ...part, ratings: {} }), [25], { count: 50, seed: 3 })
    expect(spread!.ic[1] / cold.at[0]!.ic[1]).toBeGreaterThan(1.02)
  })

  /** The base resistor below which it runs away, by halving: so large a share of an even spread lies below it. */
  test('so many run away as have too little resistance in the base', () => {
    const ambientC = 50
    const leaky = transistor({ gain: exactly(60), leakageA: exactly(2e-6), ...hot(300) })
    const outcome = (share: number) =>
      stageAt(makeStage(withOhm(position, { RB: ohm.RB * (1 + share) }), partsFor(position, leaky)), ambientC).kind
    const wide = { ...position, tolerance: { RB: 0.5 } }
    let [runs, rests] = [-0.5, 0.5]
    expect([outcome(runs), outcome(rests)]).toEqual(['runaway', 'point'])
    for (let k = 0; k < 40; k++) {
      const middle = (runs + rests) / 2
      if (outcome(middle) === 'runaway') runs = middle
      else rests = middle
    }
    const spread = stageSpread(wide, partsFor(position, leaky), [0, ambientC], { count: 2000, seed: 5 })
    const { temperatureC, share } = spread.runsAway.at(-1)!
    expect(temperatureC).toBe(ambientC)
    // three standard deviations of chance in 2000 stages
    expect(Math.abs(share - (runs + 0.5))).toBeLessThan(3 * Math.sqrt(0.25 / 2000))
    expect(runawayText(spread).at(-1)).toMatch(/^In air of 50 °C the part runs away in \d+ in a hundred of them\.$/)
    expect(spread.at.find((s) => s.temperatureC === ambientC)!.holds).toBeLessThanOrEqual(1 - share)
  })

  test('where all run away there is no band, and that is said', () => {
    const gone = transistor({ gain: exactly(60), leakageA: exactly(1e-4), ...hot(3000) })
    const spread = stageSpread(position, partsFor(position, gone), [50], { count: 20, seed: 1 })
    expect(spread.at).toEqual([])
    expect(runawayText(spread)).toEqual(['In air of 50 °C the part runs away in all of them.'])
  })
})
