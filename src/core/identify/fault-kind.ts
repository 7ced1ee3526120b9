import { thermalVoltage } from '#core/physics'
import { type BarePart, device, resistor, together } from './bare-part.ts'
import type { Draw } from './draw.ts'

/** What is wrong with a part: leads joined, a lead that hangs in the air, a leak between two, a junction worn out. */
export interface PartFault {
  readonly kind: 'short' | 'open' | 'leaky' | 'worn'
  readonly between: readonly string[]
  /** Share of the bad parts of this kind, before any reading. */
  readonly share: number
  /** What it is called where the electrodes' names do not say it. */
  readonly say?: string
}

const join = (part: BarePart, between: readonly string[], ohm: number): BarePart => ({
  ...part,
  components: [...part.components, ...between.slice(1).map((b, k) => resistor(`RFAULT${k}`, between[0]!, b, ohm))],
})

const cut = (part: BarePart, lead: string): BarePart => ({
  ...part,
  components: part.components.map((c) => ({
    ...c,
    nodes: c.nodes.map((n) => (n === lead ? `${lead}:cut` : n)),
  })) as BarePart['components'],
})

/** Voltage of a junction at which the current is stated that is lost in it, V, and the emission of that loss. */
const wornAtV = 0.6
const wornEmission = 2

/**
 * A junction that was driven into breakdown for long: traps along its edge eat a current that goes with half the slope,
 * so that little is left of a small base current, and a meter sees nothing of it.
 */
function wear(part: BarePart, [a, b]: readonly string[], lostA: number): BarePart {
  const is = lostA / Math.exp(wornAtV / (wornEmission * thermalVoltage(298.15)))
  const card = { is, n: wornEmission, eg: 1.11, xti: 3, tnom: 25 }
  return together(part, device('DWORN', [a!, b!], { kind: 'diode', card }))
}

/** Puts a fault on a sound part. A leak is 1 to 50 kohm; a worn junction loses 10 to 100 uA at 0.6 V. */
export function spoil(part: BarePart, fault: PartFault, d: Draw): BarePart {
  if (fault.kind === 'open') return fault.between.reduce(cut, part)
  if (fault.kind === 'worn') return wear(part, fault.between, d.about(3e-5, 2.2))
  return join(part, fault.between, fault.kind === 'short' ? d.about(0.8, 3) : d.about(7000, 2.6))
}

const words: Readonly<Record<string, string>> = {
  E: 'emitter',
  B: 'base',
  C: 'collector',
  D: 'drain',
  G: 'gate',
  S: 'source',
  A: 'anode',
  K: 'cathode',
}
const word = (electrode: string): string => words[electrode] ?? electrode

/** A fault as people say it: `collector-emitter short`, `emitter open`. */
export function faultText(fault: PartFault | undefined): string {
  if (fault === undefined) return 'none'
  if (fault.say !== undefined) return fault.say
  const names = fault.between.map(word).join('-')
  return fault.kind === 'leaky' ? `leak ${fault.between.map(word).join(' to ')}` : `${names} ${fault.kind}`
}
