import { combinationText } from '#core/resistor'
import type { Found, FoundPart, Mend } from '#core/upkeep'
import { bookText, Measured, Prose } from '#web/typeset'

/** What to do about each part that does not conform, or may not. */
export function FoundMends({ parts }: { readonly parts: readonly FoundPart[] }) {
  const out = parts.filter((p): p is FoundPart & { readonly mend: Mend } => p.mend !== undefined)
  if (out.length === 0)
    return <p className="soft">{parts.length === 0 ? 'Nothing is measured yet.' : 'Nothing measured needs a mend.'}</p>
  return (
    <dl className="found-mends">
      {out.map(({ part, mend: { say, take, after } }) => (
        <div key={part.id}>
          <dt>{bookText(part.id)}</dt>
          <dd>
            <Prose text={say} />
            {take !== undefined && <b> {bookText(combinationText(take)).replaceAll(' W', '\u00a0W')}.</b>}
            {after !== undefined && (
              <span className="soft">
                {' '}
                Then it has <Measured value={after.value} half={2 * after.u} unit={part.unit} />.
              </span>
            )}
          </dd>
        </div>
      ))}
    </dl>
  )
}

/** What was taken for granted. */
export function FoundRemarks({ found: { parts, unmeasured } }: { readonly found: Found }) {
  const exact = parts.filter((p) => p.u === 0).map((p) => bookText(p.part.id))
  return (
    <>
      {exact.length > 0 && (
        <p className="soft small">Taken as exact, since no accuracy of the meter is given: {exact.join(', ')}.</p>
      )}
      {unmeasured.length > 0 && (
        <p className="soft small">
          {unmeasured.length === 1 ? '1 part is' : `${unmeasured.length} parts are`} not measured, and counted with
          {unmeasured.length === 1 ? ' its tolerance.' : ' their tolerances.'}
        </p>
      )}
    </>
  )
}
