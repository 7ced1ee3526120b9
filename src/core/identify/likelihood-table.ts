import { Random } from '#core/numeric'
import { drawFrom } from './draw.ts'
import { type PartFault, spoil } from './fault-kind.ts'
import {
  curveAtA,
  diodeCheckAt,
  type Joined,
  joinedCurve,
  type LeadCurve,
  type LeadPair,
  leadCurve,
  pairsOf,
} from './lead-curve.ts'
import { type PartKind, partKinds } from './part-kind.ts'

/** A kind with one fault or none: one row of imagined parts in the table. */
export interface Condition {
  readonly key: string
  readonly kind: PartKind
  readonly fault?: PartFault
}

/** Every kind, sound where it can be, and with each of its faults. */
export const conditions: readonly Condition[] = partKinds.flatMap((kind) => [
  ...(kind.as.odds === 0 ? [] : [{ key: kind.id, kind }]),
  ...(kind.faults ?? []).map((fault) => ({ key: `${kind.id}/${fault.kind}-${fault.between.join('')}`, kind, fault })),
])

/** The table as it is shipped: curves of imagined parts, two letters a number. */
export interface LikelihoodTable {
  readonly format: string
  readonly seed: number
  readonly draws: number
  readonly parts: Readonly<Record<string, string>>
}

/** One imagined part: its curves, in the order of `pairsOf`. The same seed gives the same part. */
export function imaginedPart({ key, kind, fault }: Condition, seed: number, n: number): readonly LeadCurve[] {
  const d = drawFrom(new Random(seed, `${key} ${n}`))
  const sound = kind.make(d)
  const part = fault === undefined ? sound : spoil(sound, fault, d)
  return leadPairs(kind.electrodes).map((pair) => leadCurve(part, kind.electrodes, pair))
}

/** Ways to join the third of three leads. */
export const joins: readonly (Joined | undefined)[] = [undefined, 'plus', 'minus']

/** Every way to put a meter on a part: all pairs with the third lead open, then joined to plus, then to minus. */
function leadPairs(electrodes: readonly string[]): readonly LeadPair[] {
  const pairs = pairsOf(electrodes.length).map(([a, b]) => ({ plus: electrodes[a]!, minus: electrodes[b]! }))
  return electrodes.length < 3
    ? pairs
    : joins.flatMap((joined) => pairs.map((p) => (joined === undefined ? p : { ...p, joined })))
}

/** In how many ways a meter can be put on a part of so many leads. */
export const waysOf = (leads: number): number => pairsOf(leads).length * (leads < 3 ? 1 : joins.length)

/** Letters of the numbers: printable, without quotation mark and backslash. */
const letters = Array.from({ length: 91 }, (_, k) => String.fromCharCode(35 + k)).filter((c) => c !== '\\')
const base = letters.length
const most = base * base - 1
/** Value of each letter, by its code. */
const letterValue = new Uint8Array(128)
letters.forEach((c, k) => {
  letterValue[c.charCodeAt(0)] = k
})

/** How each number of a curve is kept: as whole steps above a least value. */
interface Scale {
  readonly least: number
  readonly step: number
  /** Above this, steps are ten times as wide. */
  readonly fineTo?: number
}
const voltScale: Scale = { least: 0, step: 1e-3, fineTo: 4 }
const gainScale: Scale = { least: -3, step: 1e-3 }
const leakScale: Scale = { least: -16, step: 2e-3 }
const voltSlopeScale: Scale = { least: -0.1, step: 2.5e-5 }
const leakSlopeScale: Scale = { least: -0.05, step: 2.5e-5 }

/** Where the wide steps begin, in steps. */
const fineSteps = ({ least, step, fineTo }: Scale): number =>
  fineTo === undefined ? Number.POSITIVE_INFINITY : Math.round((fineTo - least) / step)

const stepsTo = (value: number, s: Scale): number => {
  const [at, fine] = [(value - s.least) / s.step, fineSteps(s)]
  return Math.round(at < fine ? at : fine + (at - fine) / 10)
}

function put(value: number, s: Scale): string {
  const whole = Number.isFinite(value) ? stepsTo(value, s) : most
  const k = Math.max(0, Math.min(Number.isFinite(value) ? most - 1 : most, whole))
  return letters[Math.floor(k / base)]! + letters[k % base]!
}

function take(text: string, at: number, s: Scale): number {
  const k = letterValue[text.charCodeAt(at)]! * base + letterValue[text.charCodeAt(at + 1)]!
  if (k === most) return Number.POSITIVE_INFINITY
  const fine = fineSteps(s)
  return s.least + s.step * (k < fine ? k : fine + 10 * (k - fine))
}

/** A curve as text; of one with the third lead joined, voltages up to the diode check's, leakage and gain. */
export const writeCurve = (c: LeadCurve): string => (c.gain === undefined ? writeWhole(c) : writeJoined(c, c.gain))

const writeJoined = (c: LeadCurve, gain: number): string =>
  putVolts(c.volts.slice(0, joinedVolts)) + putLeak(c.leakA) + put(Math.log10(Math.max(gain, 1e-3)), gainScale)

const putVolts = (volts: readonly number[]): string => volts.map((v) => put(v, voltScale)).join('')

const putLeak = (amperes: number): string => put(Math.log10(Math.max(amperes, 1e-16)), leakScale)

const writeWhole = (c: LeadCurve): string =>
  putVolts(c.volts) + putLeak(c.leakA) + put(c.voltsPerK, voltSlopeScale) + put(c.decadesPerK, leakSlopeScale)

/** Letters of one curve, and voltages and letters of one with a lead joined. */
const curveLetters = 2 * (curveAtA.length + 3)
const joinedVolts = diodeCheckAt + 1
const joinedLetters = 2 * (joinedVolts + 2)

function readCurve(text: string, at: number): LeadCurve {
  const after = at + 2 * curveAtA.length
  return {
    volts: curveAtA.map((_, k) => take(text, at + 2 * k, voltScale)),
    leakA: 10 ** take(text, after, leakScale),
    voltsPerK: take(text, after + 2, voltSlopeScale),
    decadesPerK: take(text, after + 4, leakSlopeScale),
  }
}

function readJoined(text: string, at: number): LeadCurve {
  const volts = Array.from({ length: joinedVolts }, (_, k) => take(text, at + 2 * k, voltScale))
  const after = at + 2 * joinedVolts
  return joinedCurve(volts, 10 ** take(text, after, leakScale), 10 ** take(text, after + 2, gainScale))
}

/** An imagined part as text. */
export const writePart = (curves: readonly LeadCurve[]): string => curves.map(writeCurve).join('')

/** Makes the table: every condition, as many imagined parts of each. */
export const makeTable = (seed: number, draws: number): LikelihoodTable => ({
  format: 'germane/likelihoods/3',
  seed,
  draws,
  parts: Object.fromEntries(
    conditions.map((c) => [
      c.key,
      Array.from({ length: draws }, (_, n) => writePart(imaginedPart(c, seed, n))).join(''),
    ]),
  ),
})

/** Curves of a condition for one way to put the meter on, one for each imagined part. */
export function curvesOf(table: LikelihoodTable, { key, kind }: Condition, way: number): readonly LeadCurve[] {
  const text = table.parts[key]!
  const open = pairsOf(kind.electrodes.length).length
  const ways = waysOf(kind.electrodes.length)
  const partLetters = open * curveLetters + (ways - open) * joinedLetters
  const isOpen = way < open
  const start = isOpen ? way * curveLetters : open * curveLetters + (way - open) * joinedLetters
  const read = isOpen ? readCurve : readJoined
  return Array.from({ length: table.draws }, (_, n) => read(text, n * partLetters + start))
}
