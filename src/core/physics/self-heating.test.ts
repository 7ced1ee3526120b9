import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { coolestRest, heatDefaults, leakageLoopGain, selfHeating } from './index.ts'

const some = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('self-heating', () => {
  test('constant power: one stable balance at T_A + R_th P, and no fold', () =>
    fc.assert(
      fc.property(some(-20, 60), some(0.1, 500), some(0.001, 0.2), (ambientC, rthKPerW, p) => {
        const h = selfHeating({ ambientC, rthKPerW, powerAt: () => p }, { ceilingC: 300 })
        if (h.kind !== 'stable') throw new Error(h.kind)
        expect(h.points).toHaveLength(1)
        expect(h.rest.junctionC).toBeCloseTo(ambientC + rthKPerW * p, 9)
        expect(h.rest.loopGain).toBe(0)
        expect(h.fold).toBeUndefined()
      }),
    ))

  // P = P_A exp((T - T_A) / s): x = R_th P_A exp(x / s) has its fold at x = s, R_th P_A = s / e
  test('exponential power: the verdict turns where R_th P_A is s / e, and the fold stands at s', () =>
    fc.assert(
      fc.property(some(0, 50), some(5, 20), some(0.001, 0.1), some(0.1, 3), (ambientC, s, p, share) => {
        fc.pre(Math.abs(share - 1) > 1e-6)
        const critical = s / (Math.E * p)
        const powerAt = (t: number): number => p * Math.exp((t - ambientC) / s)
        const h = selfHeating({ ambientC, rthKPerW: share * critical, powerAt }, { ceilingC: ambientC + 10 * s })
        expect(h.kind).toBe(share < 1 ? 'stable' : 'runaway')
        expect(h.fold!.rthKPerW / critical).toBeCloseTo(1, 8)
        expect(h.fold!.junctionC).toBeCloseTo(ambientC + s, 4)
        if (h.kind !== 'stable') return
        expect(h.rest.isStable).toBe(true)
        expect(h.rest.loopGain).toBeCloseTo((h.rest.junctionC - ambientC) / s, 6)
        expect(h.points.slice(1).map((x) => x.isStable)).toEqual(h.points.length > 1 ? [false] : [])
      }),
    ))

  test('two balances closer than a step are both found', () => {
    const powerAt = (t: number): number => 0.01 * Math.exp((t - 20) / 10)
    const rthKPerW = (1 - 1e-5) * (10 / (Math.E * 0.01))
    const h = selfHeating({ ambientC: 20, rthKPerW, powerAt })
    expect(h.points.map((x) => x.isStable)).toEqual([true, false])
    expect(h.points[1]!.junctionC - h.points[0]!.junctionC).toBeLessThan(0.2)
  })

  test('the coolest rest alone is that of the whole way, with far fewer temperatures tried', () =>
    fc.assert(
      fc.property(some(0, 50), some(5, 20), some(0.001, 0.1), some(0.1, 1.5), (ambientC, s, p, share) => {
        fc.pre(Math.abs(share - 1) > 1e-6)
        let tried = 0
        const powerAt = (t: number): number => {
          tried++
          return p * Math.exp((t - ambientC) / s)
        }
        const part = { ambientC, rthKPerW: (share * s) / (Math.E * p), powerAt }
        const range = { ceilingC: ambientC + 20 * s, stepK: 1 }
        const rest = coolestRest(part, range)
        const quick = tried
        tried = 0
        const whole = selfHeating(part, { ...range, hasFold: false })
        expect(rest).toEqual(whole.kind === 'stable' ? whole.rest : whole.kind)
        if (share < 0.9) expect(quick / tried).toBeLessThan(0.7)
      }),
    ))

  test('no power: the part stays at ambient temperature', () =>
    expect(selfHeating({ ambientC: 25, rthKPerW: 100, powerAt: () => 0 })).toMatchObject({
      kind: 'stable',
      rest: { junctionC: 25, powerW: 0, isStable: true },
    }))

  test('no operating point on the way up: none, and where', () => {
    const powerAt = (t: number): number | undefined => (t > 44.5 ? undefined : 1)
    expect(selfHeating({ ambientC: 20, rthKPerW: 100, powerAt })).toEqual({ kind: 'none', atC: 45, points: [] })
    expect(selfHeating({ ambientC: 20, rthKPerW: 10, powerAt }).kind).toBe('stable')
    expect(selfHeating({ ambientC: 20, rthKPerW: 10, powerAt: () => undefined })).toMatchObject({
      kind: 'none',
      atC: 20,
    })
  })

  test('ambient at or above the ceiling: nothing is looked for but what is there', () =>
    expect(selfHeating({ ambientC: 210, rthKPerW: 100, powerAt: () => 1 }).kind).toBe('runaway'))

  test('a leakage that doubles has the loop gain of the rule for leakage tests', () =>
    fc.assert(
      fc.property(some(1e-6, 1e-4), some(50, 400), (leakageA, rthKPerW) => {
        const doublingK = heatDefaults.leakageDoublingK
        const powerAt = (t: number): number => 9 * leakageA * 2 ** ((t - 25) / doublingK)
        const h = selfHeating({ ambientC: 25, rthKPerW, powerAt })
        if (h.kind !== 'stable') throw new Error(h.kind)
        const atRest = h.rest.powerW / 9
        const byRule = leakageLoopGain({ supplyV: 9, leakageA: atRest, seriesOhm: 0, rthKPerW })
        expect(h.rest.loopGain / byRule).toBeCloseTo(1, 6)
      }),
    ))
})
