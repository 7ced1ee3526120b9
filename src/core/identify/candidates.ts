import type { Family, PartType } from '#core/device'
import type { IdentifiedAs } from './identify.ts'
import { byMarking, explainMarking, type Marking } from './marking.ts'
import { thinEmitter } from './part-kind.ts'
import { byDrop, byGain, byLeads, byLeakage, byThinEmitter, byZener, type Weight } from './type-weights.ts'

/** What else is known of an unmarked part. */
export interface AlsoKnown {
  /** Measured gain. */
  readonly gain?: number
  /** Measured I_CBO, A. */
  readonly leakA?: number
  /** Drop of the emitter junction, or of a diode, that a diode check showed, V. */
  readonly dropV?: number
  /** Measured breakdown of a Zener diode, V. */
  readonly zenerV?: number
  /** Case outline: `TO-5`. */
  readonly outline?: string
  /** What stands on it, where it is not a type number that is known, or not all of one. */
  readonly marking?: string
  /** How many parts of a type lie in the drawer. */
  readonly inDrawer?: ReadonlyMap<string, number>
}

/** A part type that the part may be. */
export interface Candidate {
  readonly type: string
  /** Share of the likelihood among all types that fit. */
  readonly share: number
  /** How many parts of it lie in the drawer, where there are any: as many more count for it beforehand. */
  readonly held?: number
  /** Why it fits, and how well. */
  readonly because: readonly string[]
}

export interface Candidates {
  /** Best first. */
  readonly types: readonly Candidate[]
  /** As many types, all alike likely, would leave as much doubt. */
  readonly asGoodAs: number
  readonly say: string
  /** How the drawer counts, where it does. */
  readonly prior?: string
  readonly marking?: Marking
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

/** Most that are listed. */
const mostListed = 10

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

/** All that speaks for and against a type. */
function weightsOf(t: PartType, a: IdentifiedAs, types: readonly PartType[], known: AlsoKnown): readonly Weight[] {
  const { gain, leakA, dropV, zenerV, marking } = known
  return [
    byLeads(t, a.leads),
    a.extras?.includes(thinEmitter) === true ? byThinEmitter(t) : undefined,
    gain === undefined ? undefined : byGain(t, gain),
    leakA === undefined ? undefined : byLeakage(t, leakA),
    dropV === undefined ? undefined : byDrop(t, dropV),
    zenerV === undefined || t.family !== 'zener' ? undefined : byZener(t, zenerV),
    marking === undefined ? undefined : byMarking(t, marking, types),
  ].filter((w) => w !== undefined)
}

/**
 * Part types that a part may be, by what it was identified as and what else is known of it: likelihood of lead order,
 * gain, leakage and drop given the limits on record, of what is marked on it, and of the types that lie in the drawer: a
 * type of which n parts are held is n + 1 times as likely beforehand as one of which there is none.
 *
 * @returns nothing where no record is of this kind
 */
export function candidateTypes(a: IdentifiedAs, types: readonly PartType[], known: AlsoKnown = {}): Candidates {
  const rated = types
    .filter((t) => mayBe(t, a, known.outline))
    .map((t) => {
      const parts = weightsOf(t, a, types, known)
      const held = known.inDrawer?.get(t.type) ?? 0
      const weight = parts.reduce((w, p) => w * p.weight, 1 + held)
      const drawer = held === 0 ? [] : [`${held} in the drawer`]
      return { type: t.type, held, weight, because: [...parts.map((p) => p.because), ...drawer] }
    })
    .sort((x, y) => y.weight - x.weight)
  const sum = rated.reduce((s, r) => s + r.weight, 0)
  const all = rated.map(
    ({ type, held, weight, because }): Candidate => ({
      type,
      share: weight / sum,
      ...(held === 0 ? {} : { held }),
      because,
    }),
  )
  const entropy = all.reduce((h, c) => (c.share > 0 ? h - c.share * Math.log(c.share) : h), 0)
  const asGoodAs = all.length === 0 ? 0 : Math.exp(entropy)
  const prior = sayPrior(all)
  return {
    types: all.slice(0, mostListed),
    asGoodAs,
    say: sayHowMany(all.length, asGoodAs, known),
    ...(prior === undefined ? {} : { prior }),
    ...(known.marking === undefined ? {} : { marking: explainMarking(known.marking, a, types) }),
  }
}

/** How what the drawer holds was counted. */
function sayPrior(all: readonly Candidate[]): string | undefined {
  const held = all.filter((c) => c.held !== undefined).sort((x, y) => y.held! - x.held!)
  if (held.length === 0) return undefined
  const most = held.slice(0, 3).map((c) => `${c.type}: ${c.held}`)
  const more = held.length > most.length ? ' and others' : ''
  return `Your drawer counts: a type of which it holds n parts is taken as n + 1 times as likely (${most.join(', ')}${more}).`
}

function sayHowMany(count: number, asGoodAs: number, known: AlsoKnown): string {
  if (count === 0) return 'No type on record is of this kind.'
  if (asGoodAs < 3) return `${count === 1 ? 'One type' : `${count} types`} on record may be it.`
  const missing = [
    ...(known.gain === undefined ? ['its gain'] : []),
    ...(known.outline === undefined ? ['its outline'] : []),
    ...(known.marking === undefined ? ['what is left of its marking'] : []),
  ]
  const list = missing.length < 2 ? missing[0] : `${missing.slice(0, -1).join(', ')} and ${missing.at(-1)}`
  const more = list === undefined ? '' : ` What narrows them: ${list}.`
  return `Many types fit: ${count} on record, and the doubt is that among ${Math.round(asGoodAs)}.${more}`
}
