import { FaultError } from '#core/fault'
import { normalQuantile, type Random } from '#core/numeric'
import { parseShown, type Reading, type ReadingKind, type Tester } from '#core/tester'

/**
 * A kind of part to invent: middle values, and how far parts lie from them (standard deviation of the logarithm).
 * Plausible to a restorer and made up for measuring; no maker's figures.
 */
interface Kind {
  readonly type: string
  /** Of 100 parts. */
  readonly share: number
  readonly reads: 'germanium' | 'silicon' | 'diode'
  readonly gain: number
  readonly gainSpread: number
  readonly leakageA: number
  readonly leakageSpread: number
}

const kinds: readonly Kind[] = [
  { type: '2N1305', share: 22, reads: 'germanium', gain: 95, gainSpread: 0.35, leakageA: 2.6e-6, leakageSpread: 0.5 },
  { type: 'OC71', share: 14, reads: 'germanium', gain: 55, gainSpread: 0.3, leakageA: 5e-6, leakageSpread: 0.5 },
  { type: 'AC128', share: 14, reads: 'germanium', gain: 90, gainSpread: 0.35, leakageA: 7e-6, leakageSpread: 0.6 },
  { type: 'BC107', share: 20, reads: 'silicon', gain: 210, gainSpread: 0.3, leakageA: 1e-8, leakageSpread: 1 },
  { type: 'BC109', share: 15, reads: 'silicon', gain: 420, gainSpread: 0.3, leakageA: 1e-8, leakageSpread: 1 },
  { type: '1N34A', share: 15, reads: 'diode', gain: 1, gainSpread: 0, leakageA: 1.2e-5, leakageSpread: 0.8 },
]

/** Of parts that lie in drawers, so many are shorted. */
const shorted = 0.012

/** One part as it would be read on the Larkfield tester at 21 degC. */
export interface Invented {
  readonly type: string
  readonly readings: readonly Reading[]
}

/** Ranges of the Larkfield tester for small currents: id, full scale, divisions. */
const ranges = [
  ['100 uA', 100e-6, 50],
  ['300 uA', 300e-6, 30],
  ['1 mA', 1e-3, 50],
  ['3 mA', 3e-3, 30],
  ['10 mA', 10e-3, 50],
] as const

const spans = [
  ['low', 5, 50],
  ['middle', 20, 200],
  ['high', 100, 1000],
] as const

/** A needle is read to a fifth of a division. */
const readable = 5

type Typed = readonly [reads: ReadingKind, seen: string, range: string | undefined, supplyV: number]

/** Invents a part: its kind, and what a person would read. */
export function inventPart(random: Random, tester: Tester, tag: string): Invented {
  const kind = drawnKind(random)
  const typed: readonly Typed[] =
    random.uniform() < shorted ? [['short', 'short', '100 mA', 1.5]] : [clear, ...readsOf[kind.reads](kind, random)]
  return { type: kind.type, readings: typed.map((one) => readingOf(tester, tag, kind.type, one)) }
}

const clear: Typed = ['short', 'clear', undefined, 1.5]

const readsOf: Readonly<Record<Kind['reads'], (kind: Kind, random: Random) => readonly Typed[]>> = {
  germanium: (kind, random) => {
    const { gain, leakage } = drawn(kind, random)
    return [
      ['I_CBO', ...needle(leakage), 9],
      ['I_CEO', ...needle(leakage * (1 + gain * (0.4 + 0.3 * random.uniform()))), 3],
      ['I_C', '50 div', '10 mA', 1.5],
      ['h_FE', ...dial(gain), 1.5],
    ]
  },
  silicon: (kind, random) => {
    const { gain, leakage } = drawn(kind, random)
    const baseV = 0.63 + 0.01 * normal(random)
    return [
      ['I_CEO', ...needle(leakage * (1 + gain / 4)), 6],
      ['I_C', '20 div', '3 mA', 6],
      ['h_FE', ...dial(gain), 6],
      ['V_BE', `${baseV.toFixed(2)} V`, '1 V', 6],
    ]
  },
  diode: (kind, random) => [
    ['I_F', '25 div', '10 mA', 4.5],
    ['V_F', `${(0.72 + 0.04 * normal(random)).toFixed(2)} V`, '1 V', 4.5],
    ['I_R', ...needle(drawn(kind, random).leakage), 9],
  ],
}

const normal = (random: Random): number => normalQuantile(random.uniform())

function drawn(kind: Kind, random: Random): { gain: number; leakage: number } {
  const gain = kind.gain * Math.exp(kind.gainSpread * normal(random))
  const leakage = kind.leakageA * Math.exp(kind.leakageSpread * normal(random))
  return { gain: Math.min(Math.max(gain, 8), 950), leakage }
}

/** Where the needle stands for a current, on the finest range that holds it. */
function needle(currentA: number): readonly [seen: string, range: string] {
  const [id, fullScale, divisions] = ranges.find(([, full]) => currentA <= full) ?? ranges[4]
  const at = Math.min(currentA / fullScale, 1) * divisions
  return [`${Math.round(at * readable) / readable} div`, id]
}

function dial(gain: number): readonly [seen: string, range: string] {
  const value = Math.round(gain)
  const [id] = spans.find(([, from, to]) => value >= from && value <= to) ?? spans[2]
  return [String(value), id]
}

function drawnKind(random: Random): Kind {
  let at = random.uniform() * kinds.reduce((sum, kind) => sum + kind.share, 0)
  for (const kind of kinds) {
    at -= kind.share
    if (at < 0) return kind
  }
  return kinds[0]!
}

function readingOf(tester: Tester, part: string, type: string, [reads, seen, range, supplyV]: Typed): Reading {
  const parsed = parseShown(seen, reads, tester, range)
  if (!parsed.ok) throw new FaultError(parsed.faults)
  const about = { part, type, reads, shown: parsed.shown, seen, ...(range === undefined ? {} : { range }) }
  return { ...about, point: 1, supplyV, ambientC: 21, ambientU: 1 }
}
