import { kelvin, thermalVoltage } from '#core/physics'
import { bipolarCurrents } from './bipolar-currents.ts'
import { bipolarStarts, type CardName } from './bipolar-starts.ts'
import type { Curve, CurvePoint } from './curve.ts'
import { type CurveLaw, type LawParameter, type Target, targetsOf } from './law.ts'

/**
 * The Gummel-Poon law of a transistor in forward operation. A row with V_BE is driven by it and predicts I_C and I_B; a
 * row without it is driven by I_B and predicts I_C. Without V_CE the collector is taken to be tied to the base.
 */
export function bipolarCurveLaw(curve: Curve, temperatureC: number): CurveLaw {
  if (!curve.points.some((p) => p.values.V_BE !== undefined || p.values.I_B !== undefined)) return earlyLaw(curve)
  const drivenByVoltage = (p: CurvePoint): boolean => p.values.V_BE !== undefined && p.values.V_BE > 0
  const collector = targetsOf(curve.points, ['I_C'], (p, i) => i > 0 && (drivenByVoltage(p) || (p.values.I_B ?? 0) > 0))
  const base = targetsOf(curve.points, ['I_B'], (p, i) => i > 0 && drivenByVoltage(p))
  const targets = [...collector, ...base]
  const hasDrain = targets.some((t) => t.point.values.V_CE !== undefined)
  return {
    kind: 'bjt',
    parameters: parametersOf(curve, collector, base, thermalVoltage(kelvin(temperatureC)), hasDrain),
    targets,
    ...bipolarCurrents(targets, temperatureC),
    notes: hasDrain ? [] : ['Without V_CE the collector is taken to stand at the voltage of the base.'],
  }
}

/** I_C = I_C0 (1 + V_CE / V_AF): collector current against its voltage, at a base drive that was not read. */
function earlyLaw(curve: Curve): CurveLaw {
  const targets = targetsOf(curve.points, ['I_C'], (p, i) => i > 0 && (p.values.V_CE ?? 0) > 0)
  const first = targets[0]?.value ?? 1e-3
  return {
    kind: 'bjt',
    parameters: [
      { symbol: 'I_C0', unit: 'A', start: first, low: 1e-15, high: 1e3, scale: 'log' },
      { symbol: 'V_AF', card: 'vaf', unit: 'V', start: 60, low: 0.5, high: 1e5, scale: 'log' },
    ],
    targets,
    evaluate: (p, values) => {
      for (const [i, t] of targets.entries()) values[i] = p[0]! * (1 + t.point.values.V_CE! / p[1]!)
    },
    notes: ['Neither V_BE nor I_B was read: the base drive is taken to be steady. I_C0 is I_C drawn on to V_CE of 0.'],
  }
}

function parametersOf(
  curve: Curve,
  collector: readonly Target[],
  base: readonly Target[],
  vt: number,
  hasDrain: boolean,
): readonly LawParameter[] {
  const start = bipolarStarts(curve, collector, base, vt)
  const noBase = base.length === 0 && !curve.points.some((p) => (p.values.I_B ?? 0) > 0)
  const noVoltage = !curve.points.some((p) => p.values.V_BE !== undefined)
  const because = (...why: readonly (readonly [boolean, string])[]): { held?: string } => {
    const found = why.find(([is]) => is)
    return found === undefined ? {} : { held: found[1] }
  }
  const baseOnly = [noBase, 'no base current was read'] as const
  const few = [base.length < 6, 'fewer than six base currents against V_BE'] as const
  const p = (
    symbol: string,
    card: CardName,
    unit: LawParameter['unit'],
    low: number,
    high: number,
    more: Partial<LawParameter>,
  ): LawParameter => ({
    symbol,
    card,
    unit,
    start: Math.min(high, Math.max(low, start[card])),
    low,
    high,
    scale: 'log',
    ...more,
  })
  const voltage = [noVoltage, 'no V_BE was read'] as const
  return [
    p('I_S', 'is', 'A', 1e-30, 1, because(voltage)),
    p('N_F', 'nf', '1', 0.5, 3, { scale: 'linear', ...because(voltage) }),
    p(
      'B_F',
      'bf',
      '1',
      0.1,
      1e6,
      because(baseOnly, [collector.length === 0, 'no collector current was read: I_S stands for I_S / B_F']),
    ),
    p('I_SE', 'ise', 'A', 1e-30, 1e-4, { absent: 0, sizedBy: 'I_S', ...because(baseOnly, few) }),
    p('N_E', 'ne', '1', 1.05, 5, { scale: 'linear', ...because(baseOnly, few) }),
    p('I_KF', 'ikf', 'A', 1e-9, 1e3, {
      absent: 0,
      isGoneAbove: true,
      ...because([collector.length < 5, 'fewer than five collector currents']),
    }),
    p('V_AF', 'vaf', 'V', 0.5, 1e4, { absent: 0, isGoneAbove: true, ...because([!hasDrain, 'no V_CE was read']) }),
    p('R_E', 're', 'ohm', 1e-6, 1e5, { absent: 0, ...because(voltage, few) }),
    p('R_B', 'rb', 'ohm', 1e-5, 1e6, { absent: 0, ...because(voltage, few) }),
    p('R_C', 'rc', 'ohm', 1e-6, 1e6, { absent: 0, ...because([!hasDrain, 'no V_CE was read']) }),
  ]
}
