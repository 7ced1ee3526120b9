import type { RunSheet } from '#core/sheet'
import { LetterSymbol, Prose } from '#web/typeset'
import { typeWords } from './type-field.tsx'

/** What to mind before one begins. */
export function Mind({ sheet }: { readonly sheet: RunSheet }) {
  if (sheet.cautions.length === 0) return null
  return (
    <section className="spread" aria-labelledby="to-mind">
      <h2 id="to-mind">Mind</h2>
      <div className="matter">
        {sheet.cautions.map((c) => (
          <p className="said" key={c.hazard}>
            <b>{c.hazard.charAt(0).toUpperCase() + c.hazard.slice(1)}.</b> {c.caution}
          </p>
        ))}
      </div>
    </section>
  )
}

/** What the run will read, and what cannot be had. */
export function Preview({ sheet, note }: { readonly sheet: RunSheet; readonly note: string | undefined }) {
  const reads = [...new Set(sheet.steps.flatMap((s) => (s.kind === 'read' && s.reads !== 'short' ? [s.reads] : [])))]
  const count = sheet.steps.length
  return (
    <>
      <section className="spread" aria-labelledby="will-read">
        <h2 id="will-read">It will read</h2>
        <div className="matter">
          <p className="will-read">
            {reads.map((r) => (
              <LetterSymbol key={r} of={r} />
            ))}
          </p>
          <p className="soft small">
            {count} steps
            {sheet.partType === undefined
              ? ', within what any part bears'
              : `; ${sheet.partType.type} is ${typeWords(sheet.partType)}`}
            . The short check comes first.
          </p>
          {note !== undefined && (
            <p className="small">
              <Prose text={note} />
            </p>
          )}
          {(sheet.assumed ?? []).map((a) => (
            <p className="small" key={a}>
              <Prose text={a} />
            </p>
          ))}
        </div>
      </section>
      {sheet.gaps.length > 0 && (
        <section className="spread" aria-labelledby="gaps">
          <h2 id="gaps">Not to be had here</h2>
          <dl className="matter gaps">
            {sheet.gaps.map((g) => (
              <div key={`${g.symbol} ${g.why}`}>
                <dt>
                  <LetterSymbol of={g.symbol} />
                </dt>
                <dd>
                  <Prose text={`${g.why} ${g.mend ?? ''}`} />
                </dd>
              </div>
            ))}
          </dl>
        </section>
      )}
    </>
  )
}
