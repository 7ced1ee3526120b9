import type { StageVerdict, StageWord } from '#core/stage'
import { stageOutcomes } from '#report/typeset'
import { OutcomeShape, Prose } from '#web/typeset'
import type { Answered } from './task.ts'

/** Shape and word of a verdict. */
export const StageWordShown = ({ word }: { readonly word: StageWord }) => (
  <span className="outcome">
    <OutcomeShape of={stageOutcomes[word]} /> {word}
  </span>
)

export const degrees = (t: number): string => `${Number(t.toFixed(1))}\u00a0°C`

interface Props {
  readonly answered: Answered | undefined
  readonly isBusy: boolean
  /** The part that is looked at, and the one the position was made for. */
  readonly part: string
  readonly first: string | undefined
}

/** Whether it will work there, what fails first, and at which temperature. */
export function Verdict({ answered, isBusy, part, first }: Props) {
  return (
    <section className="stage-verdict" aria-label="Verdict" aria-busy={isBusy}>
      {answered === undefined ? (
        <p className="soft">One moment …</p>
      ) : (
        <Said verdict={answered.answer.verdict} part={part} />
      )}
      {answered?.published !== undefined && first !== undefined && (
        <p className="soft">
          {first}, which it was made for: <StageWordShown word={answered.published.verdict.word} />.{' '}
          <Prose text={answered.published.verdict.why} />
        </p>
      )}
    </section>
  )
}

const Said = ({ verdict: { word, why }, part }: { readonly verdict: StageVerdict; readonly part: string }) => (
  <div role="status">
    <p className="stage-word">
      {part}: <StageWordShown word={word} />
    </p>
    <p>
      <Prose text={why} />
    </p>
  </div>
)
