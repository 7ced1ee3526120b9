import type { JobPositionEntry, PartOfPosition } from '#api'
import type { Outcome } from '#report/typeset'
import { OutcomeShape } from '#web/typeset'

type Word = NonNullable<PartOfPosition['verdict']>['word']

const shapes: Readonly<Record<Word, Outcome>> = {
  works: 'conforms',
  'works but drifts': 'undecided',
  'will not': 'does not conform',
}

/** Shape and word of what a part does in a position. */
export const WordShown = ({ word }: { readonly word: Word }) => (
  <span className="outcome">
    <OutcomeShape of={shapes[word]} /> {word}
  </span>
)

/** The part that counts in a position: fitted, else the one reserved where the found one goes, else the found one. */
export function countingPart({ parts, decision }: JobPositionEntry): PartOfPosition | undefined {
  const as = (which: PartOfPosition['as']) => parts.find((one) => one.as === which)
  const [fitted, reserved, found] = [as('fitted'), as('reserved'), as('found')]
  return fitted ?? (decision === 'replace' || found === undefined ? (reserved ?? found) : found)
}

export const columnNames = {
  'to look at': 'To look at',
  keep: 'Keep',
  replace: 'Replace',
  done: 'Done',
} as const

export const asWords: Readonly<Record<PartOfPosition['as'], string>> = {
  found: 'found',
  reserved: 'reserved',
  fitted: 'fitted',
}
