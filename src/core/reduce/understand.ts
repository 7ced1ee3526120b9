import { type Fault, FaultError } from '#core/fault'
import { leaf, type Quantity } from '#core/quantity'
import {
  burdenOf,
  type Range,
  type Reading,
  type ReadingKind,
  rangesFor,
  type Seen,
  type Supply,
  seenAtPart,
  supplyAtPart,
  type Tester,
  type TestOffer,
} from '#core/tester'
import type { PartResult } from './parameter.ts'
import { type ReduceOptions, reduceSeen } from './reduce.ts'
import type { Against, AmbientOptions, SeenReading } from './seen.ts'

/** Readings as the tester's inverse model understands them. */
export interface Understood {
  readonly seen: readonly SeenReading[]
  readonly states: readonly Reading[]
}

/**
 * Reduces readings to parameters, part by part. Order does not matter; corrections are the caller's: only current
 * readings are passed.
 *
 * @param tester the tester they were read on
 * @param readings of any number of parts
 * @param options published records by type name; room temperature for readings that carry none
 * @returns one result per part, in the order people count tags
 * @throws {FaultError} every reading that cannot be used, together
 */
export function reduceReadings(
  tester: Tester,
  readings: readonly Reading[],
  options: ReduceOptions = {},
): PartResult[] {
  const { seen, states } = understand(tester, readings, options)
  const u = tester.thermometer?.uC
  return reduceSeen(seen, states, options, {
    cause: `${tester.id}/thermometer`,
    ...(u === undefined ? {} : { u }),
  })
}

type UnderstandOptions = AmbientOptions & Pick<ReduceOptions, 'against'>

/**
 * Understands readings one by one.
 *
 * @throws {FaultError} every reading that cannot be used, together
 */
export function understand(tester: Tester, readings: readonly Reading[], options: UnderstandOptions = {}): Understood {
  const seen: SeenReading[] = []
  const states: Reading[] = []
  const faults: Fault[] = []
  for (const reading of readings) {
    if (reading.reads === 'short' || reading.shown.kind === 'state') {
      states.push(reading)
      continue
    }
    const result = seenAtPart(tester, withAmbient(reading, options))
    const supply = result.ok ? supplyOf(tester, reading, result) : undefined
    if (!result.ok) faults.push(...result.faults.map((f) => placed(f, reading)))
    else if (supply !== undefined && 'faults' in supply) faults.push(...supply.faults.map((f) => placed(f, reading)))
    else seen.push(seenReading(tester, reading, result, supply, options.against))
  }
  if (faults.length > 0) throw new FaultError(faults)
  return { seen, states }
}

function withAmbient(r: Reading, options: AmbientOptions): Reading {
  if (r.ambientC !== undefined || options.ambientC === undefined) return r
  const u = r.ambientU ?? options.ambientU
  return { ...r, ambientC: options.ambientC, ...(u === undefined ? {} : { ambientU: u }) }
}

/** Names the part in the fault, for an input that has no rows. */
function placed(f: Fault, r: Reading): Fault {
  if (f.code !== 'bad-input' || f.place.row !== undefined) return f
  return { ...f, place: { ...f.place, field: `${r.part}, ${r.reads}, ${f.place.field ?? 'reading'}` } }
}

type Read = Extract<Seen, { ok: true }>

/** Kinds whose supply is a condition of what they give. */
const supplied: readonly ReadingKind[] = ['I_CEO', 'I_CBO', 'I_CES', 'I_EBO', 'I_R', 'I_C']

function seenReading(
  tester: Tester,
  reading: Reading,
  r: Read,
  supply: Quantity<'V'> | undefined,
  known: Against | undefined,
): SeenReading {
  const finer = r.range === undefined ? undefined : finerRange(tester, reading.reads, r.range, r.quantity.value)
  const { gain } = tester
  const own = gain.kind === 'digital' && (reading.reads === 'h_FE' || reading.reads === 'V_BE') ? gain : undefined
  const collectorV = own?.collectorV
  const against = known?.(r.range === undefined ? 'gain' : { range: r.range.id }, reading.at)
  const at =
    supply ??
    (collectorV === undefined ? undefined : leaf(collectorV, 'V', { kind: 'stated', what: 'V_CE of the tester' }))
  return {
    reading,
    quantity: r.quantity,
    ...(at === undefined ? {} : { supply: at }),
    ...(own?.collectorA === undefined ? {} : { collectorA: own.collectorA }),
    ...(r.fraction === undefined || tester.kind !== 'needle' ? {} : { deflection: r.fraction }),
    ...(finer === undefined ? {} : { finerRange: finer }),
    ...(r.distrust === undefined ? {} : { distrust: r.distrust }),
    ...(against === undefined ? {} : { against }),
  }
}

/** The finest range that would still hold the value. */
function finerRange(tester: Tester, reads: ReadingKind, range: Range, value: number): string | undefined {
  const finer = rangesFor(tester, reads).filter(
    (o) => o.measures === range.measures && o.fullScale < range.fullScale && Math.abs(value) <= 0.95 * o.fullScale,
  )
  return finer.length === 0 ? undefined : finer.reduce((a, b) => (b.fullScale < a.fullScale ? b : a)).id
}

/** Voltage at the part: the tap, less what source, meter and series resistor drop. */
function supplyOf(
  tester: Tester,
  r: Reading,
  seen: Read,
): Quantity<'V'> | { readonly faults: readonly Fault[] } | undefined {
  if (!supplied.includes(r.reads) || seen.range === undefined) return undefined
  const offer = offerOf(tester, r.reads, seen.range)
  const supplies = suppliesFor(tester, offer)
  const only = supplies[0]?.taps
  const tapV = r.supplyV ?? (only?.length === 1 ? only[0] : undefined)
  if (tapV === undefined) return undefined
  if (supplies.length === 0) return leaf(tapV, 'V', { kind: 'read', what: 'supply', seen: `${tapV} V` })
  const currentA = Math.max(0, seen.quantity.value)
  const burdenV = burdenOf(seen.range, tester.movement, currentA, r.ambientC) + currentA * (offer?.seriesOhm ?? 0)
  let refused: { readonly faults: readonly Fault[] } | undefined
  for (const s of supplies) {
    const found = supplyAtPart(tester, s.id, tapV, { currentA, burdenV })
    if (found.ok) return found.quantity
    refused ??= found
  }
  return refused
}

/** The supply the test names first, then the others. */
function suppliesFor(tester: Tester, offer: TestOffer | undefined): readonly Supply[] {
  const named = tester.supplies.filter((s) => s.id === offer?.supply)
  return [...named, ...tester.supplies.filter((s) => s.id !== offer?.supply)]
}

const offerOf = (tester: Tester, reads: ReadingKind, range: Range): TestOffer | undefined =>
  tester.tests.find((t) => t.reads === reads && t.ranges.includes(range.id)) ??
  tester.tests.find((t) => t.reads === reads)
