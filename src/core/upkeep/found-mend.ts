import { type Combination, type CombineOptions, combine, type ESeries, soldOhm } from '#core/resistor'
import type { TesterPart } from './tester-part.ts'

/** What resistors are at hand for mending. */
export interface MendWish {
  readonly series: ESeries
  /** Limit of error of the resistors, as a part of their value. */
  readonly tolerance: number
}

/** What to do about a part that is out. */
export interface Mend {
  /** As a sentence. */
  readonly say: string
  /** The resistor, or the pair, to put in; left out where none of a shop will do. */
  readonly take?: Combination
  /** Whether `take` stands in place of the part, in series with it, or across it. */
  readonly place?: 'instead' | 'in series' | 'across'
  /** Value of the part after mending and its standard uncertainty; left out where nobody knows before. */
  readonly after?: { readonly value: number; readonly u: number }
}

/** How near a replacement must come by its printed value: half of what is allowed. */
const share = 0.5

/** What there is in a shop; the nearest of a series may be smaller than any that is sold. */
function soldOf(ohm: number, wish: CombineOptions): Combination | undefined {
  const { taken } = combine(ohm, wish)
  return taken?.members.every((m) => m.ohm >= soldOhm.from && m.ohm <= soldOhm.to) === true ? taken : undefined
}

const isResistor = (p: TesterPart): boolean => p.load !== undefined

/**
 * What to do about a part found out: a resistor is replaced by one of a series or a pair of them; where a shop has none
 * so small, what was found is trimmed by a resistor across it or in series.
 *
 * @param foundOhm what it was found to be
 */
export function mendOf(p: TesterPart, found: number, o: MendWish): Mend {
  if (!isResistor(p) || p.nominal === undefined) return { say: bySaying(p, found) }
  const part = p.allowed.max! / p.nominal - 1
  const wish: CombineOptions = { ...o, within: part * share, ...(p.load && { load: p.load }) }
  const whole = soldOf(p.nominal, wish)
  if (whole !== undefined)
    return { say: 'Put a new one in its place.', take: whole, place: 'instead', after: settled(whole.ohm, o.tolerance) }
  return trimmed(p, p.nominal, found, wish) ?? { say: bySaying(p, found) }
}

const settled = (value: number, part: number): NonNullable<Mend['after']> => ({
  value,
  u: (value * part) / Math.sqrt(3),
})

/** What was found, brought to its value by a resistor across it, or in series with it. */
function trimmed(p: TesterPart, wanted: number, found: number, wish: CombineOptions): Mend | undefined {
  const across = found > wanted
  const ohm = across ? 1 / (1 / wanted - 1 / found) : wanted - found
  const changes = (trim: number): number => (across ? 1 / (1 / found + 1 / trim) : found + trim)
  // what it adds counts only by its share of the whole
  const partOfWhole = across ? wanted / ohm : ohm / wanted
  const { load: _, ...bare } = wish
  const powerOf = p.load !== undefined && 'currentA' in p.load ? p.load.currentA : 0
  const load = across ? { voltageV: powerOf * wanted } : { currentA: powerOf }
  const taken = soldOf(ohm, { ...bare, within: wish.within / partOfWhole, load })
  if (taken === undefined) return undefined
  const after = changes(taken.ohm)
  return {
    say: across ? 'Keep it, and solder this across it.' : 'Keep it, and put this in series with it.',
    take: taken,
    place: across ? 'across' : 'in series',
    after: { value: after, u: (after * wish.tolerance * partOfWhole) / Math.sqrt(3) },
  }
}

function bySaying(p: TesterPart, found: number): string {
  switch (p.kind) {
    case 'shunt':
    case 'segment':
      return 'No shop has one so small: wind it of resistance wire, four-wire connected, of a length worked out from gauge and alloy.'
    case 'contact':
      return 'Clean the switch with a contact cleaner, turn it some twenty times, solder its wires anew, and measure again.'
    case 'leads':
      return 'Take shorter or thicker leads, clean plugs and clips, and read the voltage at the part, not at the sockets.'
    case 'fuse':
      return 'Clean the caps and the clips; if that does not help, put in a new one of the same rating.'
    case 'dial':
      return 'Put one of the value the scale was drawn for in its place, or trim the other resistor by the same part.'
    case 'cell':
    case 'inside':
      return 'Clean the springs first; if that does not help, change all cells of the set together.'
    case 'across':
      return 'Lift the diodes at one end: if the reading comes back, change them; else clean board and terminals.'
    case 'coil':
      return found < (p.nominal ?? 0)
        ? 'Put the missing resistance in series with the coil.'
        : 'A coil that has grown is a bad joint or a wrong series resistor: find it; else adjust every shunt to it.'
    case 'movement':
      return 'Its magnet or springs have changed: calibrate every range, or let somebody adjust the movement.'
    case 'multiplier':
    case 'series':
      return 'No pair of this series comes near enough: take a finer series, such as E96.'
  }
}
