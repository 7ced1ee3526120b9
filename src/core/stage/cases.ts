import { readOutput, sensitivity } from '#core/circuit'
import { exactly } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import { setAmbient } from './stage-circuit.ts'
import { makeStage, type Stage, settled, stageAt } from './stage-point.ts'
import { numbersAtC } from './transistor-device.ts'

/** A position under strain: what it is, and the position as it is then. */
export interface Case {
  readonly name: 'supply low' | 'aged, more current' | 'aged, less current'
  readonly says: string
  readonly position: Position
}

/**
 * The strains of a position: the supply fallen, and the resistors risen with age, those that raise the current alone and
 * those that lower it alone. Resistors of carbon rise with age and do not fall (common practice).
 */
export function casesOf(s: Stage): readonly Case[] {
  const { position: p } = s
  const { sag, ageing } = p.demands
  const low = { ...p, supplyV: p.supplyV * (1 - sag) }
  const slopes = currentSlopes(s)
  const aged = (sign: number): Position => ({
    ...p,
    ohm: Object.fromEntries(
      Object.entries(p.ohm).map(([ref, r]) => [ref, (slopes[ref] ?? 0) * sign > 0 ? r * (1 + ageing) : r]),
    ),
  })
  const percent = `${Math.round(100 * ageing)} %`
  return [
    ...(sag > 0
      ? [{ name: 'supply low' as const, says: `with the supply ${Math.round(100 * sag)} % low`, position: low }]
      : []),
    ...(ageing > 0
      ? [
          {
            name: 'aged, more current' as const,
            says: `with the resistors that raise the current ${percent} up with age`,
            position: aged(1),
          },
          {
            name: 'aged, less current' as const,
            says: `with the resistors that lower the current ${percent} up with age`,
            position: aged(-1),
          },
        ]
      : []),
  ]
}

/** Change of the current of the place that is looked at with each resistor, at 25 degC. */
function currentSlopes({ c, position: p, part }: Stage): Readonly<Record<string, number>> {
  setAmbient(c, p, numbersAtC)
  if (!settled(c)) return {}
  return sensitivity(c, readOutput(c, `${p.place}.${part.kind === 'diode' ? 'if' : 'ic'}`)).slopes
}

/** What the leakage of the part does at one temperature. */
export interface LeakageEffect {
  readonly temperatureC: number
  /** Collector current and voltage with its leakage and with next to none. */
  readonly ic: number
  readonly icWithout: number
  readonly vce: number
  readonly vceWithout: number
}

/** A part with next to no leakage: what is left is that of its V_BE. */
const littleLeakage = 1e-6

/** What the leakage of the part that is looked at does, at each temperature at which the stage has a point. */
export function leakageEffect(s: Stage, parts: Parts, temperaturesC: readonly number[]): readonly LeakageEffect[] {
  const { position: p, part } = s
  const tight = { ...part, leakageA: exactly(part.leakageA.usual * littleLeakage) }
  const without = makeStage(p, { ...parts, [p.place]: tight })
  return temperaturesC.flatMap((temperatureC) => {
    const [a, b] = [stageAt(s, temperatureC), stageAt(without, temperatureC)]
    if (a.kind !== 'point' || b.kind !== 'point') return []
    return [{ temperatureC, ic: a.point.ic, icWithout: b.point.ic, vce: a.point.vce, vceWithout: b.point.vce }]
  })
}
