import { leadOrderDoubt, type PartType } from '#core/device'
import { type Base, baseOf } from './base.ts'
import type { Check } from './known.ts'

/**
 * What has to be done with the leads of a stand-in: nothing, turn it round, bend them, cross two of them, fit it in
 * another way altogether; or find them first.
 */
export type LeadWork = 'none' | 'turn' | 'bend' | 'cross' | 'refit' | 'find'

export interface LeadPlan {
  readonly work: LeadWork
  /** The two leads that cross. */
  readonly crossed?: readonly [string, string]
  /** Sentences. */
  readonly says: string
  /** Both bases as seen from below, where they are settled. */
  readonly bases?: { readonly wanted: Base; readonly offered: Base }
}

/**
 * How the leads of one type go where those of another went, from both lead orders.
 *
 * In a line only the middle lead counts: an order and the same read backwards are one part turned round. A circle of three
 * can always be turned so that any lead comes to lie between the two others, so that its leads reach a line, and those of
 * a line a circle, without crossing.
 *
 * @example leadPlan(bc557, sa1015).says // 'Cross its B and C leads, ...'
 */
export function leadPlan(wanted: PartType, offered: PartType): LeadPlan {
  if (wanted.type === offered.type) return { work: 'none', says: 'The same type: its leads go where they went.' }
  const [from, to] = [baseOf(offered), baseOf(wanted)]
  if (from === undefined || to === undefined) {
    const says = [
      to === undefined ? doubtOf(wanted) : undefined,
      from === undefined ? doubtOf(offered) : undefined,
    ].filter((s) => s !== undefined)
    return { work: 'find', says: says.join(' ') }
  }
  const plan = planOf(to, from)
  const doubts = [besideText(to, from), leadOrderDoubt(offered)].filter((s) => s !== undefined)
  return { ...plan, says: [plan.says, ...doubts].join(' '), bases: { wanted: to, offered: from } }
}

const doubtOf = (t: PartType): string =>
  leadOrderDoubt(t) ?? `From which side the leads of ${t.type} are told is not on record: find them by a junction test.`

type Plan = Pick<LeadPlan, 'work' | 'crossed' | 'says'>

function planOf(to: Base, from: Base): Plan {
  const text = (b: Base): string => b.leads.join('-')
  if (to.shape !== from.shape && [to.shape, from.shape].some((s) => s === 'bolted' || s === 'axial'))
    return {
      work: 'refit',
      says: `It is fixed in another way: bring ${from.leads.join(', ')} to their places by wires.`,
    }
  if (to.shape !== from.shape) return bent(to)
  switch (to.shape) {
    case 'axial':
    case 'bolted':
      return text(to) === text(from)
        ? { work: 'none', says: 'Its leads go where they went.' }
        : { work: 'turn', says: `Turn it round: its leads are ${text(from)} where they were ${text(to)}.` }
    case 'ring':
      return inRing(to, from)
    case 'line':
      return inLine(to, from)
  }
}

function bent(to: Base): Plan {
  const says =
    to.shape === 'line'
      ? `Turn it so that its ${to.leads[1]} lead lies between the two others, and bend the leads into a line: none of them crosses.`
      : `Turn it so that each lead faces its place, and spread the leads to a triangle: none of them crosses.`
  return { work: 'bend', says }
}

/** Round a circle the order counts, wherever it begins. */
function inRing(to: Base, from: Base): Plan {
  const twice = [...to.leads, ...to.leads].join('-')
  if (to.leads[0] === from.leads[0] && twice.startsWith(from.leads.join('-')))
    return { work: 'none', says: 'Its leads go where they went.' }
  if (twice.includes(from.leads.join('-')))
    return { work: 'turn', says: `Turn it until its ${to.leads[0]} lead is where that was.` }
  return {
    work: 'bend',
    says: `Its leads run round the other way: bend the ${from.leads[1]} lead through between the two others.`,
  }
}

function inLine(to: Base, from: Base): Plan {
  const backwards = [...from.leads].reverse()
  if (to.leads.join() === from.leads.join()) return { work: 'none', says: 'Its leads go where they went.' }
  if (to.leads.join() === backwards.join())
    return { work: 'turn', says: 'Turn it half round: its leads run the other way.' }
  const [a, b] = [from.leads[1]!, to.leads[1]!]
  const after = from.leads.map((n) => (n === a ? b : n === b ? a : n))
  const turn = after.join() === to.leads.join() ? '' : ' and turn it half round'
  return {
    work: 'cross',
    crossed: [a, b],
    says: `Cross its ${a} and ${b} leads${turn}, with sleeving over one of them: ${b} has to come to the middle.`,
  }
}

function besideText(to: Base, from: Base): string | undefined {
  if (from.beside.length > 0 && to.beside.length === 0) return 'Its fourth lead is the can: earth it, or cut it off.'
  if (to.beside.length > 0 && from.beside.length === 0) return 'The place of the fourth lead, the can, stays empty.'
  return undefined
}

/** The leads as a check: crossing, fitting in another way and finding ask for care. */
export function leadCheck(plan: LeadPlan): Check {
  const word = plan.work === 'find' ? 'unknown' : plan.work === 'cross' || plan.work === 'refit' ? 'care' : 'enough'
  return { what: 'leads', word, says: plan.says }
}
