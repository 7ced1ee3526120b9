import { FaultError } from '#core/fault'
import { derive, exact, leaf, type Quantity, term } from '#core/quantity'
import type { ReadingKind, Tester } from '#core/tester'
import { resistanceByCurrents, resistanceByResistor, voltageAtTap } from './cell-formulas.ts'

/**
 * Kinds of cells. Letters are those of IEC 60086-1, nominal voltages of it; end-of-life voltages of silver and lithium
 * cells as read in a public table of the letters, the others as is common practice.
 */
export const cellKinds = {
  zinc: { name: 'zinc-carbon (R)', nominalV: 1.5, freshV: 1.55, endV: 0.9 },
  alkaline: { name: 'alkaline (LR)', nominalV: 1.5, freshV: 1.55, endV: 0.9 },
  silver: { name: 'silver oxide (SR)', nominalV: 1.55, freshV: 1.55, endV: 1.2 },
  lithium: { name: 'lithium manganese (CR)', nominalV: 3, freshV: 3.1, endV: 2 },
  nickel: { name: 'nickel, rechargeable', nominalV: 1.2, freshV: 1.3, endV: 1 },
} as const

export type CellKind = keyof typeof cellKinds

/** A number read, with its standard uncertainty where it is known. */
export interface Read {
  readonly value: number
  readonly u?: number
}

export interface CellsWish {
  readonly kind: CellKind
  /** Cells in series. */
  readonly count: number
  /** Voltage at rest, V, and the current then, A: that of the meter or a small load. */
  readonly rest: Read
  readonly restA: number
  /** Voltage under a load, V, and that load: a current, or a resistor across the set. */
  readonly loaded: Read
  readonly load: { readonly ampere: number } | { readonly ohm: number }
  /** How much of its voltage a test may lose before its readings are not those of the tap, as a part. */
  readonly sag: number
  /** Currents to be looked at, and the tests of a tester. */
  readonly currentsA: readonly number[]
  readonly tester?: Tester
}

/** A tenth of its voltage is what a test may lose: typed limits at a collector voltage then still compare (common practice). */
export const cellsDefaults = { sag: 0.1 } as const

/** What is asked of the set. */
export interface CellLoad {
  readonly currentA: number
  /** Left out where a current alone was asked. */
  readonly reads?: ReadingKind
  readonly range?: string
  readonly tapV: number
}

export interface CellLoadResult extends CellLoad {
  /** Voltage left at the tap. */
  readonly voltage: Quantity<'V'>
  /** What is lost of the voltage at rest, as a part, and what each cell is left with, V. */
  readonly sag: number
  readonly perCellV: number
  /** `sags`: more is lost than allowed; `cannot`: below the end-of-life voltage. */
  readonly word: 'carries' | 'sags' | 'cannot'
}

export interface CellsCheck {
  readonly restPerCellV: number
  readonly inner: Quantity<'ohm'>
  readonly innerPerCellOhm: number
  /** Most current before more is lost than allowed, and before the end-of-life voltage, A. */
  readonly mostSteadyA: number
  readonly mostA: number
  readonly loads: readonly CellLoadResult[]
  readonly state: 'good' | 'tired' | 'change'
  /** Why, in sentences. */
  readonly why: readonly string[]
}

const volts = (r: Read, cause: string, what: string): Quantity<'V'> =>
  leaf(
    r.value,
    'V',
    { kind: 'read', what, seen: `${r.value} V` },
    r.u === undefined ? [] : [term(`cells/${cause}`, { label: what, u: r.u })],
  )

/**
 * What a set of cells can still do: resistance inside, voltage left in each test, and whether to change it.
 *
 * @throws {FaultError} `out-of-domain` where the loaded voltage is not below the one at rest
 * @see docs/how-to/cells.md
 */
export function checkCells(w: CellsWish): CellsCheck {
  const rest = volts(w.rest, 'rest', 'voltage at rest')
  const inner = innerOf(w, rest)
  const { endV } = cellKinds[w.kind]
  const emfV = w.rest.value + w.restA * inner.value
  const loads = loadsOf(w).map((l) => resultOf(w, l, rest, inner))
  const found = {
    restPerCellV: w.rest.value / w.count,
    inner,
    innerPerCellOhm: inner.value / w.count,
    mostSteadyA: (w.sag * emfV) / inner.value,
    mostA: Math.max(0, (emfV - w.count * endV) / inner.value),
    loads,
  }
  return { ...found, ...judge(w, found) }
}

function innerOf(w: CellsWish, rest: Quantity<'V'>): Quantity<'ohm'> {
  if (!(w.loaded.value < w.rest.value && w.loaded.value > 0))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'The voltage under load',
      value: `${w.loaded.value} V`,
      allowed: `above 0 and below the ${w.rest.value} V at rest: check the load`,
    })
  const loaded = volts(w.loaded, 'loaded', 'voltage under load')
  if ('ohm' in w.load)
    return derive(
      resistanceByResistor,
      { rest, loaded, resistor: exact(w.load.ohm, 'ohm', 'resistor across the set') },
      'resistance inside',
    )
  if (!(w.load.ampere > w.restA))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'The load',
      value: `${w.load.ampere} A`,
      allowed: `above the ${w.restA} A at rest`,
    })
  return derive(
    resistanceByCurrents,
    { rest, loaded, load: exact(w.load.ampere, 'A', 'load'), restCurrent: exact(w.restA, 'A', 'current at rest') },
    'resistance inside',
  )
}

/** Currents asked for at the whole set, then the heaviest of each test. */
function loadsOf(w: CellsWish): readonly CellLoad[] {
  const wholeV = w.count * cellKinds[w.kind].nominalV
  return [
    ...w.currentsA.map((currentA) => ({ currentA, tapV: wholeV })),
    ...(w.tester === undefined ? [] : testLoads(w.tester).filter((l) => l.tapV <= wholeV * (1 + 1e-9))),
  ]
}

/**
 * The heaviest current each test of a tester can ask of its cells: the full scale of its highest range, held down by the
 * resistor in series and by what the supply and the tester allow. What is lost goes with the current alone, so one tap
 * stands for all: the lowest at which the current is the heaviest.
 */
export function testLoads(t: Tester): readonly CellLoad[] {
  return t.tests.flatMap((offer) => {
    const supply = t.supplies.find((s) => s.id === offer.supply && s.kind === 'cells')
    const ranges = t.ranges.filter((r) => offer.ranges.includes(r.id) && r.measures === 'current')
    const range = [...ranges].sort((a, b) => b.fullScale - a.fullScale)[0]
    if (supply === undefined || range === undefined) return []
    const most = Math.min(range.fullScale, supply.maxA ?? Number.POSITIVE_INFINITY, t.limits.maxCurrentA)
    const currentAt = (tapV: number): number => (offer.seriesOhm ? Math.min(most, tapV / offer.seriesOhm) : most)
    const [tapV] = [...supply.taps].sort((a, b) => currentAt(b) - currentAt(a) || a - b)
    if (tapV === undefined) return []
    return [{ reads: offer.reads, range: range.id, tapV, currentA: currentAt(tapV) }]
  })
}

function resultOf(w: CellsWish, l: CellLoad, rest: Quantity<'V'>, inner: Quantity<'ohm'>): CellLoadResult {
  const { nominalV, endV } = cellKinds[w.kind]
  const cells = l.tapV / nominalV
  const voltage = derive(
    voltageAtTap,
    {
      share: exact(cells / w.count, '1', 'part of the set that the tap takes'),
      rest,
      load: exact(Math.max(0, l.currentA - w.restA), 'A', 'load'),
      inner,
    },
    `voltage left at ${l.tapV} V`,
  )
  const perCellV = voltage.value / cells
  const sag = 1 - perCellV / (w.rest.value / w.count)
  const word = perCellV < endV ? 'cannot' : sag > w.sag ? 'sags' : 'carries'
  return { ...l, voltage, sag, perCellV, word }
}

/** Below this part between end of life and fresh a resting cell is at the end of its use (common practice). */
const emptyAt = { change: 0.4, tired: 0.7 } as const

const told = (x: number): string => String(Number(x.toPrecision(3)))

function judge(w: CellsWish, c: Omit<CellsCheck, 'state' | 'why'>): Pick<CellsCheck, 'state' | 'why'> {
  const { freshV, endV, name } = cellKinds[w.kind]
  const left = (c.restPerCellV - endV) / (freshV - endV)
  const cannot = c.loads.filter((l) => l.word === 'cannot')
  const sags = c.loads.filter((l) => l.word === 'sags')
  const why = [
    `At rest ${told(c.restPerCellV)} V a cell: a fresh ${name} cell has ${freshV} V or more, and ${endV} V under load is its end.`,
    ...(cannot.length > 0
      ? [
          `${cannot.length} of ${c.loads.length} loads bring the cells below ${endV} V each: change them, or test there from an outside supply.`,
        ]
      : []),
    ...(sags.length > 0
      ? [
          `${sags.length} of ${c.loads.length} loads lose more than ${told(w.sag * 100)} %: set the voltage anew under load, or carry the limit over to the voltage you have.`,
        ]
      : []),
    ...(left < emptyAt.change ? ['So low at rest they fall fast and may leak: change all of them together.'] : []),
  ]
  const state =
    left < emptyAt.change || (cannot.length > 0 && cannot.length === c.loads.length)
      ? 'change'
      : left < emptyAt.tired || cannot.length > 0 || sags.length > 0
        ? 'tired'
        : 'good'
  return { state, why }
}
