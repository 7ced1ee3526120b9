import type { Family, Limit, PartType } from '#core/device'
import type { IdentifiedAs } from './identify.ts'

/** What else is known of an unmarked part. */
export interface AlsoKnown {
  /** Measured gain. */
  readonly gain?: number
  /** Measured I_CBO, A. */
  readonly leakA?: number
  /** Case outline: `TO-5`. */
  readonly outline?: string
  /** How many parts of a type lie in the drawer. */
  readonly inDrawer?: ReadonlyMap<string, number>
}

/** A part type that the part may be. */
export interface Candidate {
  readonly type: string
  /** Share of the likelihood among all types that fit. */
  readonly share: number
  /** Why it fits, and how well. */
  readonly because: readonly string[]
}

export interface Candidates {
  /** Best first. */
  readonly types: readonly Candidate[]
  /** As many types, all alike likely, would leave as much doubt. */
  readonly asGoodAs: number
  readonly say: string
}

const families: Readonly<Record<string, Family>> = {
  BJT: 'bjt',
  Darlington: 'bjt',
  JFET: 'jfet',
  MOSFET: 'mosfet',
  SCR: 'scr',
  triac: 'triac',
  UJT: 'ujt',
  diode: 'diode',
  'Zener diode': 'zener',
}
const materials: Readonly<Record<string, string>> = { silicon: 'Si', germanium: 'Ge', Schottky: 'Si' }

/**
 * Weights, common practice, from memory: leads may be recorded from the other side; records and makers differ; limits
 * say little about what is typical.
 */
const weights = {
  orderKnown: 1,
  orderUnknown: 0.5,
  orderOther: 0.1,
  /** Spread of the gain of a type where limits do not say it, and where nothing does, factors. */
  gainFactor: 1.7,
  gainMiddle: 100,
  gainAny: 2.5,
  /** Typical leakage beside its limit, and its spread, factors. */
  leakTypical: 0.15,
  leakFactor: 4,
  /** Each part in the drawer makes its type likelier, up to so many. */
  drawerMost: 5,
} as const

/** Most that are listed. */
const mostListed = 10

/** A normal density in the logarithm, of a value about a middle with a factor of spread. */
function lognormal(value: number, middle: number, factor: number): number {
  const s = Math.log(factor)
  return Math.exp(-0.5 * (Math.log(value / middle) / s) ** 2) / s
}

interface Weight {
  readonly weight: number
  readonly because: string
}

/** Leads as they are recorded, from either side. */
function byLeads(t: PartType, leads: IdentifiedAs['leads']): Weight {
  const recorded = t.leads?.order
  if (recorded === undefined || recorded === 'verify')
    return { weight: weights.orderUnknown, because: 'its lead order is not on record' }
  const names = recorded
    .split('-')
    .filter((e) => !['S', 'case', 'nc'].includes(e) || t.family === 'jfet' || t.family === 'mosfet')
  const seen = Object.values(leads)
  const fits = (order: readonly string[]): boolean =>
    order.length === seen.length && order.every((e, k) => seen[k]!.split(' or ').includes(e))
  return fits(names) || fits([...names].reverse())
    ? { weight: weights.orderKnown, because: `leads ${recorded}` }
    : { weight: weights.orderOther, because: `its leads are ${recorded}, not these` }
}

/** Middle and factor of spread of what a limit says is to be expected. */
function gainOf({ min, typ, max }: Limit): readonly [middle: number, factor: number] | undefined {
  if (min !== undefined && max !== undefined)
    return [typ ?? Math.sqrt(min * max), Math.max(1.15, (max / min) ** (1 / 3.3))]
  const middle = typ ?? (min === undefined ? undefined : 1.8 * min) ?? (max === undefined ? undefined : 0.6 * max)
  return middle === undefined || !(middle > 0) ? undefined : [middle, weights.gainFactor]
}

function byGain(t: PartType, gain: number): Weight {
  const spans = t.limits.flatMap((l) => (l.symbol === 'h_FE' ? [gainOf(l)] : [])).filter((s) => s !== undefined)
  if (spans.length === 0)
    return { weight: lognormal(gain, weights.gainMiddle, weights.gainAny), because: 'its gain is not on record' }
  const all = spans.map(([middle, factor]) => ({ middle, weight: lognormal(gain, middle, factor) }))
  const best = all.reduce((a, b) => (b.weight > a.weight ? b : a))
  return { weight: best.weight, because: `h_FE about ${Number(best.middle.toPrecision(2))}` }
}

function byLeakage(t: PartType, leakA: number): Weight {
  const limit = t.limits.find((l) => l.symbol === 'I_CBO' && l.max !== undefined)?.max
  if (limit === undefined) return { weight: 0.3, because: 'its I_CBO is not on record' }
  const weight = lognormal(Math.max(leakA, 1e-11), limit * weights.leakTypical, weights.leakFactor)
  return { weight, because: leakA > limit ? 'I_CBO is above its limit' : 'I_CBO is within its limit' }
}

function mayBe(t: PartType, a: IdentifiedAs, outline: string | undefined): boolean {
  const material = materials[a.technology ?? '']
  const polarity = ['NPN', 'PNP', 'N', 'P'].find((p) => p === a.polarity)
  return (
    t.family === families[a.family] &&
    (t.polarity === undefined || polarity === undefined || t.polarity === polarity) &&
    (t.material === undefined || material === undefined || t.material === material) &&
    (outline === undefined || t.outline === undefined || t.outline.toUpperCase().includes(outline.toUpperCase()))
  )
}

/**
 * Part types that a part may be, by what it was identified as and what else is known of it: likelihood of lead order,
 * gain and leakage given the limits on record, and of the types that lie in the drawer.
 *
 * @returns nothing where no record is of this kind
 */
export function candidateTypes(a: IdentifiedAs, types: readonly PartType[], known: AlsoKnown = {}): Candidates {
  const rated = types
    .filter((t) => mayBe(t, a, known.outline))
    .map((t) => {
      const parts = [
        byLeads(t, a.leads),
        ...(known.gain === undefined ? [] : [byGain(t, known.gain)]),
        ...(known.leakA === undefined ? [] : [byLeakage(t, known.leakA)]),
      ]
      const held = known.inDrawer?.get(t.type) ?? 0
      const weight = parts.reduce((w, p) => w * p.weight, 1 + Math.min(held, weights.drawerMost))
      const drawer = held === 0 ? [] : [`${held} in the drawer`]
      return { type: t.type, weight, because: [...parts.map((p) => p.because), ...drawer] }
    })
    .sort((x, y) => y.weight - x.weight)
  const sum = rated.reduce((s, r) => s + r.weight, 0)
  const all = rated.map(({ type, weight, because }): Candidate => ({ type, share: weight / sum, because }))
  const entropy = all.reduce((h, c) => (c.share > 0 ? h - c.share * Math.log(c.share) : h), 0)
  const asGoodAs = all.length === 0 ? 0 : Math.exp(entropy)
  return { types: all.slice(0, mostListed), asGoodAs, say: sayHowMany(all.length, asGoodAs, known) }
}

function sayHowMany(count: number, asGoodAs: number, known: AlsoKnown): string {
  if (count === 0) return 'No type on record is of this kind.'
  if (asGoodAs < 3) return `${count === 1 ? 'One type' : `${count} types`} on record may be it.`
  const more = known.gain === undefined ? ' Its gain and its outline would narrow them.' : ''
  return `Many types fit: ${count} on record, and the doubt is that among ${Math.round(asGoodAs)}.${more}`
}
