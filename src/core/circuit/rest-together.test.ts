import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { kelvin, voltsPerKelvin2014 } from '#core/physics'
import { expectRelative } from '#core/testing'
import {
  compileCircuit,
  type OperatingPoint,
  operatingPoint,
  pointOf,
  readNetlist,
  readOutput,
  restTogether,
  selfHeatedPoint,
  sensitivity,
  setTemperature,
  setValue,
  solve,
} from './index.ts'
import reference from './self-heated-together.ref.json' with { type: 'json' }

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }
const circuitOf = (name: string) => readNetlist(reference.circuits[name as keyof typeof reference.circuits])
const compiled = (name: string, temperatureC: number) => compileCircuit(circuitOf(name), { temperatureC, setting })

type Numbers = Readonly<Record<string, number>>
interface Case {
  readonly circuit: string
  readonly ambientC: number
  readonly rthKPerW: Numbers
  readonly outcome: string
  readonly junctionC?: Numbers
  readonly parts?: Readonly<Record<string, { readonly ic: number; readonly ib: number; readonly powerW: number }>>
}
const cases = (reference.cases as unknown as readonly Case[]).map((c) => ({
  ...c,
  name: `${c.circuit} at ${c.ambientC} degC, ${JSON.stringify(c.rthKPerW)}`,
}))

/** Powers by ngspice 39 at junction temperatures that SciPy 1.17.1 balances: self-heated-together.ref.py. */
describe('parts that heat themselves together, as ngspice has them', () => {
  test.each(cases.filter((c) => c.outcome === 'stable'))(
    '$name',
    ({ circuit, ambientC, rthKPerW, junctionC, parts }) => {
      const found = restTogether(compiled(circuit, ambientC), rthKPerW)
      if (found.kind !== 'rest') throw new Error(found.kind)
      for (const { ref, heating } of found.parts) {
        if (heating.kind !== 'stable') throw new Error(heating.kind)
        expect(Math.abs(heating.rest.junctionC - junctionC![ref]!), ref).toBeLessThan(2e-5)
        expect(heating.rest.isStable).toBe(true)
      }
      for (const [ref, wanted] of Object.entries(parts!)) {
        const d = found.point.devices[ref]!
        if (d.kind !== 'bipolar') throw new Error(`${ref} is no transistor`)
        expectRelative(d.ic, Math.abs(wanted.ic), 1e-6, `I_C of ${ref}`)
        expectRelative(d.ib, Math.abs(wanted.ib), 1e-6, `I_B of ${ref}`)
        expectRelative(d.power, wanted.powerW, 1e-6, `heat of ${ref}`)
      }
    },
  )

  test.each(cases.filter((c) => c.outcome === 'runaway'))('$name runs away', ({ circuit, ambientC, rthKPerW }) =>
    expect(restTogether(compiled(circuit, ambientC), rthKPerW).kind).toBe('runaway'),
  )
})

test('one part alone rests where it does by itself', () => {
  const c = circuitOf('direct-coupled')
  const alone = selfHeatedPoint(c, 'Q2', 250, { temperatureC: 25, setting })
  const found = restTogether(compiled('direct-coupled', 25), { Q2: 250 })
  if (found.kind !== 'rest') throw new Error(found.kind)
  expect(found.parts[0]!.heating).toEqual(alone.heating)
  expect(found.point.nodeVoltages).toEqual(alone.point!.nodeVoltages)
})

test('the order in which parts are named does not matter', () => {
  const rests = (rth: Numbers): readonly (readonly [string, number])[] => {
    const found = restTogether(compiled('push-pull', 40), rth)
    if (found.kind !== 'rest') throw new Error(found.kind)
    return found.parts
      .map(({ ref, heating }) => [ref, heating.kind === 'stable' ? heating.rest.junctionC : Number.NaN] as const)
      .sort(([a], [b]) => a.localeCompare(b))
  }
  const [one, other] = [rests({ Q1: 25, Q2: 18 }), rests({ Q2: 18, Q1: 25 })]
  for (const [k, [ref, t]] of one.entries()) expect(Math.abs(other[k]![1] - t), ref).toBeLessThan(1e-6)
})

test('without a way for heat to build up it is the point of the cold circuit', () => {
  const cold = operatingPoint(circuitOf('push-pull'), { temperatureC: 25, setting })
  const found = restTogether(compiled('push-pull', 25), { Q1: 1e-9, Q2: 1e-9 })
  if (found.kind !== 'rest') throw new Error(found.kind)
  expectRelative(found.point.sourceCurrents.VCC!, cold.sourceCurrents.VCC!, 1e-9)
})

test('a part that runs away says with how much resistance it would rest', () => {
  const found = restTogether(compiled('push-pull', 25), { Q1: 120 })
  if (found.kind !== 'runaway') throw new Error(found.kind)
  const { fold } = found.part.heating
  expect(found.part).toMatchObject({ ref: 'Q1', rthKPerW: 120 })
  const at = (rth: number) => restTogether(compiled('push-pull', 25), { Q1: rth }).kind
  expect([at(fold!.rthKPerW * 0.999), at(fold!.rthKPerW * 1.001)]).toEqual(['rest', 'runaway'])
})

/** Against solutions with the resistor changed a little and the junctions held where they rest. */
test('sensitivities hold the junctions at their temperatures', () => {
  const c = compiled('direct-coupled', 25)
  const found = restTogether(c, { Q1: 200, Q2: 150 })
  if (found.kind !== 'rest') throw new Error(found.kind)
  const { value, slopes } = sensitivity(c, readOutput(c, 'Q2.ic'))
  expectRelative(value, icOf(found.point), 1e-9)
  const moved = (ohm: number): number => {
    setValue(c, 'R5', ohm)
    expect(solve(c).converged).toBe(true)
    return icOf(pointOf(c, solve(c)))
  }
  expectRelative(slopes.R5!, (moved(180.01) - moved(179.99)) / 0.02, 1e-5)
  setTemperature(c, c.temperatureK)
  const cold = (moved(180.01) - moved(179.99)) / 0.02
  expect(Math.abs(slopes.R5! / cold - 1)).toBeGreaterThan(1e-3)
})

const icOf = ({ devices }: OperatingPoint): number => (devices.Q2 as { readonly ic: number }).ic

test('the circuit can be taken to another temperature afterwards', () => {
  const c = compiled('direct-coupled', 25)
  restTogether(c, { Q1: 200, Q2: 150 })
  setTemperature(c, kelvin(45))
  const found = restTogether(c, { Q1: 200, Q2: 150 })
  const fresh = restTogether(compiled('direct-coupled', 45), { Q1: 200, Q2: 150 })
  if (found.kind !== 'rest' || fresh.kind !== 'rest') throw new Error('no rest')
  expectRelative(found.point.nodeVoltages.c2!, fresh.point.nodeVoltages.c2!, 1e-9)
  expect(solve(c).converged).toBe(true)
})

test('a part that is not there is named', () =>
  expect(() => restTogether(compiled('push-pull', 25), { Q9: 100 })).toThrow(FaultError))
