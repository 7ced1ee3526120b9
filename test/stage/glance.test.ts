import { describe, expect, test } from 'vitest'
import {
  exactly,
  makeStage,
  overTemperature,
  type Position,
  referenceCurrent,
  type Stage,
  stageAt,
  stageGlance,
  stageVerdict,
  templateNamed,
  templates,
} from '#core/stage'
import { diode, partsFor, positionOf, transistor } from './positions.ts'

const stageOf = (id: string, more: Partial<Position> = {}): Stage => {
  const position = positionOf(id, { polarity: 'NPN', ...more })
  const main = position.place.startsWith('D') ? diode : transistor({ polarity: 'NPN', ratings: { rthKPerW: 200 } })
  return makeStage(position, partsFor(position, main))
}

describe('a stage at one temperature and one supply', () => {
  test.each(templates.map((t) => t.id))(
    '%s: drift is counted from the current at rest, solved for before or now',
    (id) => {
      const supplyV = 0.9 * stageOf(id).position.supplyV
      const referenceA = referenceCurrent(stageOf(id))
      const known = stageGlance(stageOf(id), { ambientC: 40, supplyV, referenceA })
      const solved = stageGlance(stageOf(id), { ambientC: 40, supplyV })
      expect(known.limits.map((l) => l.limit)).toEqual(solved.limits.map((l) => l.limit))
      for (const [k, l] of known.limits.entries()) expect(l.spare).toBeCloseTo(solved.limits[k]!.spare, 6)
    },
  )

  test.each(templates.map((t) => t.id))('%s: every move of a slider stands where a stage made anew does', (id) => {
    const s = stageOf(id)
    for (const [ambientC, share] of [
      [0, 1],
      [50, 0.8],
      [25, 1.1],
      [40, 1],
    ] as const) {
      const supplyV = share * s.position.supplyV
      const moved = stageGlance(s, { ambientC, supplyV })
      const anew = stageGlance(stageOf(id), { ambientC, supplyV })
      expect(moved.word).toBe(anew.word)
      for (const [k, { state, outcome }] of moved.points.entries()) {
        const other = anew.points[k]!.outcome
        const direct = stageAt(
          stageOf(id, { supplyV }),
          ambientC,
          s.position.template.states.find((x) => x.name === state),
        )
        expect(outcome.kind).toBe(direct.kind)
        if (outcome.kind !== 'point' || direct.kind !== 'point' || other.kind !== 'point') continue
        for (const x of [direct.point, other.point])
          expect(Math.abs(outcome.point.ic - x.ic)).toBeLessThan(1e-6 * Math.abs(x.ic) + 1e-12)
      }
    }
  })

  test.each(templates.map((t) => t.id))('%s: a move, the stage made anew, takes less than 50 ms of one core', (id) => {
    const moves = 40
    const began = process.cpuUsage()
    for (let k = 0; k < moves; k++) {
      const supplyV = templateNamed(id).supplyV * (0.8 + 0.01 * k)
      expect(stageGlance(stageOf(id), { ambientC: k, supplyV }).limits.length).toBeGreaterThan(0)
    }
    const { user, system } = process.cpuUsage(began)
    expect((user + system) / 1000 / moves).toBeLessThan(50)
  })

  test('the limit that fails over temperature fails at its temperature, and not before', () => {
    const position = positionOf('fixed-bias')
    const parts = partsFor(position, transistor({ leakageA: exactly(1.2e-5) }))
    const verdict = stageVerdict(position, parts)
    const s = makeStage(position, parts)
    const at = (ambientC: number) => stageGlance(s, { ambientC })
    expect(at(verdict.failsAtC! + 0.01)).toMatchObject({ word: 'will not', limit: verdict.limit })
    expect(at(verdict.failsAtC! + 0.01).why).toMatch(/^Here the collector bottoms/)
    expect(at(verdict.failsAtC! - 0.2).word).not.toBe('will not')
  })

  test('drift is counted from the current with the usual supply', () => {
    const s = stageOf('fixed-bias')
    const low = stageGlance(s, { ambientC: 25, supplyV: 3 })
    expect(low).toMatchObject({ word: 'works but drifts', limit: 'drift' })
    expect(overTemperature(s).referenceA).toBeGreaterThan(0)
  })

  test('what does not run away in cool air is said to where it does', () => {
    const power = transistor({
      polarity: 'NPN',
      gain: exactly(60),
      atA: 0.1,
      leakageA: exactly(2e-4),
      vbeV: exactly(0.25),
      ratings: { rthKPerW: 20, junctionMaxC: 90 },
    })
    const position = positionOf('fixed-bias', { polarity: 'NPN', ohm: { RB: 82e3, RC: 0.5 } })
    const s = makeStage(position, partsFor(position, power))
    expect(stageGlance(s, { ambientC: 0 }).points[0]!.outcome.kind).toBe('point')
    expect(stageGlance(s, { ambientC: 70 })).toMatchObject({ word: 'will not', limit: 'runaway' })
  })
})
