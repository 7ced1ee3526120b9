import {
  type Circuit,
  type Component,
  compileCircuit,
  type Device,
  pointOf,
  setCard,
  setValue,
  solve,
} from '#core/circuit'
import { FaultError } from '#core/fault'
import { findRoot } from '#core/numeric'
import { type BipolarCard, type DeviceSetting, kelvin } from '#core/physics'
import { printPlain } from '#core/quantity'
import { type GainBridge, resistorsOf } from './gain-bridge.ts'

export type Transistor = Extract<Device, { kind: 'bipolar' }>

export interface NullWish {
  readonly bridge: GainBridge
  /** Resistance of the needle and what stands in series with it, ohm. */
  readonly detectorOhm: number
  readonly transistor: Transistor
  readonly ambientC: number
  readonly leakageA?: number
  readonly setting?: DeviceSetting
}

/** The needle's current for a place of the dial and a gain of the transistor. */
export interface NullCircuit {
  /** Current through the needle from the collector on, A: positive with an NPN transistor that has too little gain. */
  readonly needleA: (dialOhm: number) => number
  /** Sets the transistor's forward gain so that the bridge nulls with the dial at a resistance. */
  readonly nullAt: (dialOhm: number) => void
}

function circuitOf(w: NullWish): Circuit {
  const { bridge: b, detectorOhm, transistor, leakageA = 0 } = w
  const sign = transistor.polarity === 'npn' ? 1 : -1
  const r = resistorsOf(b, b.fixedOhm)
  const resistor = (ref: string, x: string, y: string, value: number): Component => ({
    kind: 'R',
    ref,
    nodes: [x, y],
    value,
  })
  const far = b.kind === 'ratio' ? 'b' : 'tap'
  return {
    title: 'gain bridge',
    components: [
      { kind: 'V', ref: 'E', nodes: ['e', '0'], value: sign * b.emfV },
      resistor('RB', 'e', 'b', r.baseOhm),
      resistor('RC', 'e', 'c', r.collectorOhm),
      resistor('RD', 'c', far, detectorOhm),
      ...(b.kind === 'divider'
        ? [
            resistor('R1', 'e', 'tap', b.dividerOhm * (1 - b.tapFraction)),
            resistor('R2', 'tap', '0', b.dividerOhm * b.tapFraction),
          ]
        : []),
      { kind: 'I', ref: 'IL', nodes: ['c', '0'], value: sign * leakageA },
      { kind: 'Q', ref: 'Q', nodes: ['c', 'b', '0'], device: 'q' },
    ],
    devices: { q: transistor },
  }
}

/** Gains a forward gain is looked for in. */
const gains = [0.5, 1e5] as const

/** The bridge with a transistor in it, as the circuit solver has it. */
export function nullCircuit(w: NullWish): NullCircuit {
  const { bridge: b, transistor, detectorOhm } = w
  const c = compileCircuit(circuitOf(w), w.setting === undefined ? {} : { setting: w.setting })
  c.temperatureK = kelvin(w.ambientC)
  const ref = b.dial === 'base' ? 'RB' : 'RC'
  const sign = transistor.polarity === 'npn' ? 1 : -1
  const put = (card: Partial<BipolarCard>): void => setCard(c, 'Q', card as Readonly<Record<string, number>>)
  put({})
  const needleA = (dialOhm: number): number => {
    setValue(c, ref, dialOhm)
    const { nodeVoltages: v, converged } = pointOf(c, solve(c))
    if (!converged) return Number.NaN
    return (sign * (v.c! - (b.kind === 'ratio' ? v.b! : v.tap!))) / detectorOhm
  }
  return {
    needleA,
    nullAt: (dialOhm) => {
      const at = (logGain: number): number => {
        put({ bf: Math.exp(logGain) })
        return needleA(dialOhm)
      }
      const [low, high] = [Math.log(gains[0]), Math.log(gains[1])]
      if (!(at(low) * at(high) <= 0)) throw noNull(dialOhm)
      put({ bf: Math.exp(findRoot(at, low, high, { tolerance: 1e-9 })) })
    },
  }
}

const noNull = (dialOhm: number): FaultError =>
  new FaultError({
    code: 'out-of-domain',
    name: 'The dial',
    value: printPlain(dialOhm, 'ohm'),
    allowed: 'where some transistor nulls the bridge: check the fixed resistor, the pot and the marks',
  })

/** How far the dial is turned for the slopes, as a part of its resistance. */
const turn = 1e-3

/** Current through the needle for the dial turned by the whole of its resistance, at null, A: the steepness there. */
export function needlePerTurn(n: NullCircuit, dialOhm: number): number {
  n.nullAt(dialOhm)
  return Math.abs(n.needleA(dialOhm * (1 + turn)) - n.needleA(dialOhm * (1 - turn))) / (2 * turn)
}
