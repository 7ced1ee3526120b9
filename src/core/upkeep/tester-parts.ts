import type { Movement, Range, Tester } from '#core/tester'
import { dialParts } from './dial-part.ts'
import { ringParts } from './ring-part.ts'
import { supplyParts } from './supply-part.ts'
import { around, partDefaults, type TesterPart } from './tester-part.ts'
import { withCircuit } from './with-circuit.ts'

/**
 * Every part a description knows of: movement, shunts, ring, multipliers, contacts, leads, resistors in series, cells, a fuse, the
 * resistors of a gain dial.
 * Outside supplies and digital ranges have no parts that could be measured here.
 *
 * @see docs/how-to/as-found.md
 */
export const testerParts = (t: Tester): readonly TesterPart[] => [
  ...(t.movement === undefined ? [] : movementParts(t.movement)),
  ...(t.movement === undefined ? [] : t.ranges.flatMap((r) => rangeParts(t.movement!, r))),
  ...(t.movement === undefined ? [] : ringParts(t.movement, t.ranges)),
  ...supplyParts(t),
  ...dialParts(t),
]

/** A movement with a resistance across it is one of more current and less resistance. */
export const acrossMovement = (m: Movement, ohm: number): Movement => ({
  ...m,
  fullScaleA: m.fullScaleA * (1 + m.coilOhm / ohm),
  coilOhm: m.coilOhm / (1 + m.coilOhm / ohm),
})

const withMovement = (t: Tester, change: (m: Movement) => Movement): Tester =>
  t.movement === undefined ? t : { ...t, movement: change(t.movement) }

function movementParts(m: Movement): readonly TesterPart[] {
  const ofClass = m.classPercent / 100
  return [
    {
      id: 'movement',
      kind: 'movement',
      unit: 'A',
      nominal: m.fullScaleA,
      allowed: around(m.fullScaleA, ofClass),
      how: 'Current through the movement alone at full deflection.',
      change: (t, fullScaleA) => withMovement(t, (was) => ({ ...was, fullScaleA })),
    },
    {
      id: 'coil',
      kind: 'coil',
      unit: 'ohm',
      nominal: m.coilOhm,
      // where shunts were adjusted to the coil, it may not move by more than the class
      allowed: around(m.coilOhm, m.coilTolerance ?? ofClass),
      how: `Resistance of the movement by substitution, never by an ohmmeter, brought to ${m.atC} °C.`,
      change: (t, coilOhm) => withMovement(t, (was) => ({ ...was, coilOhm })),
    },
    {
      id: 'across movement',
      kind: 'across',
      unit: 'ohm',
      allowed: { min: m.coilOhm / (ofClass * partDefaults.acrossPartOfClass) },
      how: 'Protection diodes and dirt across the movement, coil lifted, at the voltage of full deflection.',
      change: (t, ohm) => withMovement(t, (was) => acrossMovement(was, ohm)),
    },
  ]
}

function rangeParts(m: Movement, r: Range): readonly TesterPart[] {
  const { circuit: c, id } = r
  if (c.kind === 'multiplier')
    return [
      {
        id: `multiplier ${id}`,
        kind: 'multiplier',
        unit: 'ohm',
        nominal: c.seriesOhm,
        allowed: around(c.seriesOhm, c.tolerance),
        ...(c.asFound && { stated: { value: c.asFound.ohm, u: c.asFound.uOhm } }),
        how: 'Across the resistor, movement lifted.',
        load: { currentA: m.fullScaleA },
        change: (t, seriesOhm) =>
          withCircuit(t, id, 'multiplier', ({ kind, tolerance }) => ({ kind, tolerance, seriesOhm })),
      },
    ]
  if (c.kind !== 'shunt') return []
  return [
    {
      id: `shunt ${id}`,
      kind: 'shunt',
      unit: 'ohm',
      nominal: c.shuntOhm,
      allowed: around(c.shuntOhm, c.tolerance),
      ...(c.asFound && { stated: { value: c.asFound.ohm, u: c.asFound.uOhm } }),
      how: c.shuntOhm < 10 ? 'Four wires: current through its ends, voltage at the shunt.' : 'Movement lifted.',
      load: { currentA: r.fullScale - m.fullScaleA },
      change: (t, shuntOhm) => withCircuit(t, id, 'shunt', ({ asFound: _, ...was }) => ({ ...was, shuntOhm })),
    },
    {
      id: `contact ${id}`,
      kind: 'contact',
      unit: 'ohm',
      nominal: c.contactOhm,
      // it stands in series with the shunt: it may not move the range more than the shunt itself may
      allowed: { max: c.contactOhm + c.tolerance * c.shuntOhm },
      how: 'Voltage across the switch contact at a known current; turn the switch a few times and take the worst.',
      change: (t, contactOhm) => withCircuit(t, id, 'shunt', (was) => ({ ...was, contactOhm })),
    },
  ]
}
