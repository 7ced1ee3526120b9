import type { PartType } from '#core/device'
import type { Check } from './known.ts'

/** What a case is joined to: an electrode, nothing, or something one has to measure. */
export type CaseJoin = { readonly kind: 'joined'; readonly to: string } | { readonly kind: 'insulated' | 'measure' }

/** Outlines of plastic and glass, whose case conducts nothing. */
const insulating =
  /TO-92|TO-98|TO-105|TO-106|Lockfit|SOT-25|Silect|DO-7|DO-35|DO-41|DO-201|plastic|glass|in-line 3 lead/i

/** What the case of a type is joined to, as its record or its outline has it; undefined where neither tells. */
export function caseJoin({ leads, outline = '' }: PartType): CaseJoin | undefined {
  const said = leads?.caseConnected
  if (said !== undefined) {
    if (/measure|maker|\bor\b/i.test(said)) return { kind: 'measure' }
    if (/^none/i.test(said)) return { kind: 'insulated' }
    const to = /^([A-Za-z]\d?)\b/.exec(said)?.[1]
    return to === undefined ? { kind: 'measure' } : to === 'S' ? { kind: 'insulated' } : { kind: 'joined', to }
  }
  return insulating.test(outline) && !/metal sleeve/i.test(outline) ? { kind: 'insulated' } : undefined
}

/** Whether the case of a stand-in may touch what the old one touched. */
export function caseCheck(wanted: PartType, offered: PartType): Check {
  const join = caseJoin(offered)
  const before = caseJoin(wanted)
  const check = (word: Check['word'], says: string): Check => ({ what: 'case', word, says })
  if (wanted.type === offered.type) return check('enough', 'The same type: the same case.')
  if (join === undefined)
    return check('unknown', 'What its case is joined to is not on record: measure before it touches anything.')
  switch (join.kind) {
    case 'insulated':
      return check('enough', 'Its case is joined to no electrode.')
    case 'measure':
      if (before?.kind === 'measure')
        return check(
          'enough',
          `Its case may be joined to a lead, as that of ${wanted.type}: measure if it touches anything.`,
        )
      return check('care', 'Its case may be joined to a lead: measure before it touches anything.')
    case 'joined':
      return before?.kind === 'joined' && before.to === join.to
        ? check('enough', `Its case is joined to ${join.to}, as that of ${wanted.type}.`)
        : check(
            'care',
            `Its case is joined to ${join.to}: keep it off the chassis and off its neighbours, or insulate it.`,
          )
  }
}

/** The outline, in words; another one is worth a look and refuses nothing. */
export function outlineCheck(wanted: PartType, offered: PartType): Check {
  const [a, b] = [wanted.outline, offered.outline]
  if (b === undefined)
    return { what: 'outline', word: 'unknown', says: 'Its outline is not on record: see whether it fits.' }
  const says =
    a === b || a === undefined ? `Its outline is ${b}.` : `Its outline is ${b} where ${a} was: see whether it fits.`
  return { what: 'outline', word: 'enough', says }
}
