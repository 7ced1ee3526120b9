import type { JobPositionEntry, PartOfPosition } from '#api'
import { partOfPosition } from '#core/job'
import { stageOutcomes } from '#report/typeset'
import { OutcomeShape } from '#web/typeset'

type Word = NonNullable<PartOfPosition['verdict']>['word']

/** Shape and word of what a part does in a position. */
export const WordShown = ({ word }: { readonly word: Word }) => (
  <span className="outcome">
    <OutcomeShape of={stageOutcomes[word]} /> {word}
  </span>
)

/** The part that counts in a position. */
export function countingPart(position: JobPositionEntry): PartOfPosition | undefined {
  const chosen = partOfPosition(position)
  return chosen && position.parts.find((one) => one.tag === chosen.tag && one.as === chosen.as)
}

export const columnNames = {
  'to look at': 'To look at',
  keep: 'Keep',
  replace: 'Replace',
  done: 'Done',
} as const
