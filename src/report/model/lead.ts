import { type Outcome, outcomes } from '#report/typeset'
import type { JudgedPart, SectionIds } from './judged.ts'
import type { LeadLine } from './model.ts'
import { partLead } from './part-section.ts'
import { counted } from './wording.ts'

/** A lead names this many parts of one outcome at most. */
export const namedAtMost = 8

const says: Readonly<Record<Exclude<Outcome, 'conforms'>, string>> = {
  'does not conform': 'Outside a limit',
  undecided: 'Undecided',
  'not comparable': 'Not comparable with any limit',
  'not judged': 'Not held against any limit',
  short: 'Shorted',
  open: 'Open',
}

/** What to know first: how the one part came out, or which parts of a lot did not simply conform. */
export function leadLines(parts: readonly JudgedPart[], sectionIds: SectionIds): readonly LeadLine[] {
  const [first] = parts
  if (first === undefined) return [line('No parts yet: take readings of a part, and print again.')]
  if (parts.length === 1) return [{ ...line(partLead(first)), outcome: first.outcome }]
  const odd = outcomes.flatMap((o) => (o === 'conforms' ? [] : oddLine(o, parts, sectionIds)))
  if (odd.length === 0) return [line(`All ${counted(parts.length, 'part')} conform.`)]
  return odd
}

const line = (say: string): LeadLine => ({ say, parts: [], more: 0 })

function oddLine(
  outcome: Exclude<Outcome, 'conforms'>,
  parts: readonly JudgedPart[],
  sectionIds: SectionIds,
): readonly LeadLine[] {
  const found = parts.filter((p) => p.outcome === outcome)
  if (found.length === 0) return []
  const named = found.slice(0, namedAtMost).map((part) => {
    const section = sectionIds.get(part)
    return { tag: part.result.part, ...(section === undefined ? {} : { section }), because: part.because }
  })
  return [{ say: says[outcome], outcome, parts: named, more: found.length - named.length }]
}
