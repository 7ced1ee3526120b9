import type { Conditions, PartType } from '#core/device'
import { heatPath, pathResistance } from '#core/physics'
import { derive, exact, leaf, limitTerm, type Quantity, type Unit } from '#core/quantity'
import { isLeakage, type LeakageSymbol, leakageToTemperature, leakageToVoltage, leakageVoltage } from './carry.ts'
import { assumed, baseIdeality, warmShare } from './law-number.ts'
import { junctionTemperatureAt, kelvinOf } from './operating-point.ts'
import { type Ambient, type Held, lawMaterial } from './seen.ts'

/** One operating point of a part: what was read there and what follows. */
export interface Point {
  readonly number: number
  readonly ambient: Ambient
  /** As read, by symbol. */
  readonly read: ReadonlyMap<string, Held>
  /** Read and derived, by symbol. */
  readonly values: Map<string, Quantity>
  /** Collector current the tester works at, where it was not read, A. */
  readonly collectorA?: number
  /** What was worked out for the point once already. */
  readonly known: Map<string, Quantity | undefined>
}

/** Works a quantity of a point out once. */
function once<U extends Unit>(p: Point, key: string, make: () => Quantity<U> | undefined): Quantity<U> | undefined {
  if (!p.known.has(key)) p.known.set(key, make())
  return p.known.get(key) as Quantity<U> | undefined
}

/** What recipes may ask of a part besides its points. */
export interface PartContext {
  readonly part: string
  /** Type as written with the readings. */
  readonly typeName?: string
  /** Its published record, where one is known. */
  readonly type?: PartType
  readonly leakages: readonly Held[]
  /** Whether parameters are brought to 25 degC as well. */
  readonly at25: boolean
}

/** The operating points among what is held: everything that is not leakage, by point number. */
export function pointsOf(held: readonly Held[]): Point[] {
  const numbers = [...new Set(held.filter((h) => !isLeakage(h.symbol)).map((h) => h.point))].sort((a, b) => a - b)
  return numbers.map((number) => {
    const here = held.filter((h) => h.point === number && !isLeakage(h.symbol))
    const read = new Map<string, Held>(here.map((h) => [h.symbol, h]))
    const values = new Map<string, Quantity>(here.map((h) => [h.symbol, h.quantity]))
    const supply = (read.get('I_C') ?? read.get('h_FE'))?.supply
    if (!values.has('V_CE') && supply !== undefined) values.set('V_CE', supply)
    const collectorA = here.flatMap((h) => h.readings.map((s) => s.collectorA)).find((a) => a !== undefined)
    const ambient = (read.get('I_C') ?? here[0]!).ambient
    return { number, ambient, read, values, known: new Map(), ...(collectorA === undefined ? {} : { collectorA }) }
  })
}

/** Conditions of a point, for its parameters. */
export function conditionsOf(p: Point): Conditions {
  const value = (symbol: string): number | undefined => p.values.get(symbol)?.value
  const conditions: Record<string, number> = {}
  const add = (key: string, at: number | undefined): void => {
    if (at !== undefined) conditions[key] = at
  }
  add('I_C', value('I_C') ?? p.collectorA)
  add('I_B', value('I_B'))
  add('V_CE', value('V_CE'))
  add('I_F', value('I_F'))
  conditions.T = p.ambient.quantity.value
  return conditions
}

/** Conditions of a leakage. */
export const leakageConditions = (h: Held): Conditions => {
  const T = h.ambient.quantity.value
  return h.supply === undefined ? { T } : { [leakageVoltage[h.symbol as LeakageSymbol]]: h.supply.value, T }
}

/** The part's leakage of a kind, carried to a point's collector voltage and temperature. */
export const leakageAt = (c: PartContext, symbol: LeakageSymbol, p: Point): Quantity<'A'> | undefined =>
  once(p, symbol, () => carriedLeakage(c, symbol, p))

function carriedLeakage(c: PartContext, symbol: LeakageSymbol, p: Point): Quantity<'A'> | undefined {
  const toV = p.values.get('V_CE')?.value
  const nearest = nearestLeakage(c, symbol, toV)
  if (nearest === undefined) return undefined
  const material = lawMaterial(c.type)
  let q = nearest.quantity as Quantity<'A'>
  const fromV = nearest.supply?.value
  if (fromV !== undefined && toV !== undefined && fromV > 0 && toV > 0 && Math.abs(toV / fromV - 1) > sameVoltage)
    q = leakageToVoltage(symbol, q, fromV, toV, { part: c.part, ...(material === undefined ? {} : { material }) })
  const from = nearest.ambient.quantity
  if (material !== undefined && Math.abs(from.value - p.ambient.quantity.value) > sameTemperatureK)
    q = leakageToTemperature(symbol, q, from, p.ambient.quantity, { part: c.part, material })
  return q
}

/** A condition this near counts as the same, relative; and for temperatures, K (common practice). */
export const sameVoltage = 0.05
export const sameTemperatureK = 0.5

function nearestLeakage(c: PartContext, symbol: LeakageSymbol, toV: number | undefined): Held | undefined {
  const all = c.leakages.filter((h) => h.symbol === symbol)
  if (toV === undefined || all.length < 2) return all[0]
  const distance = (h: Held): number => (h.supply === undefined ? 1e9 : Math.abs(Math.log(h.supply.value / toV)))
  return all.reduce((a, b) => (distance(b) < distance(a) ? b : a))
}

/** Thermal resistance to air; half of it is taken as its doubt where it is not published. */
export function resistanceToAir(t: PartType | undefined): Quantity<'K/W'> | undefined {
  if (t?.ratings.T_Jmax === undefined) return undefined
  const path = heatPath({ ...t.ratings, T_Jmax: t.ratings.T_Jmax }, t.outline)
  const rth = pathResistance(path)
  const share = t.ratings.R_thJA === undefined ? 0.5 : 0.2
  return leaf(rth, 'K/W', { kind: 'assumed', what: 'R_thJA', why: path.from }, [
    limitTerm(`rth/${t.type}`, `thermal resistance: ${path.from}`, rth * share),
  ])
}

/**
 * Temperature of the junction while a point was read: the room's, and part of the warming by its own power where the
 * thermal resistance can be told.
 */
export const junctionOf = (c: PartContext, p: Point): Quantity<'degC'> =>
  p.values.has('P') ? once(p, 'junction', () => warmed(c, p))! : p.ambient.quantity

function warmed(c: PartContext, p: Point): Quantity<'degC'> {
  const rth = given(c, p, 'rth') as Quantity<'K/W'> | undefined
  const power = p.values.get('P')
  if (rth === undefined || power === undefined || Math.abs(power.value * rth.value) < noticeableRiseK)
    return p.ambient.quantity
  const share = assumed(warmShare, '1', `warm/${c.part}/${p.number}`)
  return derive(junctionTemperatureAt, {
    ambient: p.ambient.quantity,
    share,
    power: power as Quantity<'W'>,
    resistance: rth,
  })
}

/** Own warming below this is left out, K. */
const noticeableRiseK = 0.2

/** What every point has, by the lower-case names of the recipe table. */
export function given(c: PartContext, p: Point, name: string): Quantity | undefined {
  switch (name) {
    case 'ideality':
      return assumed(baseIdeality, '1', `ideality/${c.part}`)
    case 'kelvin':
      return once(p, 'kelvin', () => derive(kelvinOf, { celsius: junctionOf(c, p) }))
    case 'ambient':
      return p.ambient.quantity
    case 'whole':
      return exact(1, '1', 'left on until it is as warm as it gets')
    case 'rth':
      return once(p, 'rth', () => resistanceToAir(c.type))
    default:
      return undefined
  }
}
