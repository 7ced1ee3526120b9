import { useDeferredValue, useMemo } from 'react'
import { currentStep, type ReadStep, type Session } from '#core/sheet'
import { interval95 } from '#core/uncertainty'
import { bookText, LetterSymbol, Measured, OutcomeShape, OutcomeWord } from '#web/typeset'
import { type Row, soFar } from './so-far.ts'
import type { RunState } from './use-run.ts'
import './rail.css'

/** All that was read of the part; each reading can be corrected. */
export function ReadList({ run, session }: { readonly run: RunState; readonly session: Session }) {
  const now = currentStep(session)?.id
  const reads = session.sheet.steps.flatMap((s, at) => (s.kind === 'read' ? [{ s, at }] : []))
  const points =
    new Set(reads.map(({ s }) => `${s.reads} ${s.point}`)).size > new Set(reads.map(({ s }) => s.reads)).size
  return (
    <section className="rail-part" aria-labelledby="rail-read">
      <h2 id="rail-read">Readings</h2>
      <ol className="read-list">
        {reads.map(({ s, at }) => (
          <li key={s.id} aria-current={s.id === now ? 'step' : undefined}>
            <ReadLine step={s} session={session} showsPoint={points} onGo={() => run.goTo(at)} />
          </li>
        ))}
      </ol>
    </section>
  )
}

interface ReadLineProps {
  readonly step: ReadStep
  readonly session: Session
  readonly showsPoint: boolean
  readonly onGo: () => void
}

function ReadLine({ step, session, showsPoint, onGo }: ReadLineProps) {
  const reading = session.readings[step.id]
  const name = step.reads === 'short' ? 'short check' : <LetterSymbol of={step.reads} />
  const point = showsPoint && step.point > 1 ? <span className="soft small"> point {step.point}</span> : null
  if (reading === undefined)
    return (
      <span className="read-line soft">
        <span>
          {name}
          {point}
        </span>
        <span aria-hidden="true">·</span>
      </span>
    )
  return (
    <button type="button" className="read-line" onClick={onGo} title="Correct this reading">
      <span>
        {name}
        {point}
      </span>
      <span className="read-seen">{bookText(reading.seen)}</span>
      <span className="vh">, correct it</span>
    </button>
  )
}

/** Parameters and verdicts, as far as the readings go, the one being typed among them. */
export function SoFarList({ session, typed }: { readonly session: Session; readonly typed: Session['readings'] }) {
  const readings = useDeferredValue(typed)
  const { sheet } = session
  const found = useMemo(() => soFar(sheet, Object.values(readings)), [sheet, readings])
  return (
    <section className="rail-part" aria-labelledby="rail-so-far">
      <h2 id="rail-so-far">So far</h2>
      {found === undefined || (found.rows.length === 0 && found.result.state === 'measured') ? (
        <p className="soft small">Parameters appear here as you type.</p>
      ) : (
        <table className="so-far">
          <caption className="vh">Parameters of {session.part} as far as it is read</caption>
          <tbody>
            {found.result.state !== 'measured' && (
              <tr>
                <td colSpan={2}>
                  <OutcomeWord of={found.result.state} />
                </td>
              </tr>
            )}
            {found.rows.map(({ parameter: p, verdicts }) => {
              const [low, high] = interval95(p.quantity)
              const worst = ['does not conform', 'undecided', 'conforms'].find((w) =>
                verdicts.some((v) => v.verdict === w),
              )
              return (
                <tr key={`${p.symbol} ${p.points.join(' ')} ${JSON.stringify(p.conditions)}`}>
                  <th scope="row">
                    <LetterSymbol of={p.symbol} />
                    {pointText(found.rows, p)}
                  </th>
                  <td className="n">
                    <Measured value={p.quantity.value} half={(high - low) / 2} unit={p.quantity.unit} />
                  </td>
                  <td className="so-far-mark">
                    {worst !== undefined && (
                      <span title={verdicts.map((v) => v.why).join('\n')}>
                        <OutcomeShape of={worst as 'conforms'} />
                        <span className="so-far-word"> {worst}</span>
                      </span>
                    )}
                  </td>
                </tr>
              )
            })}
          </tbody>
        </table>
      )}
    </section>
  )
}

/** At which point, where the same parameter comes from several. */
function pointText(rows: readonly Row[], { symbol, points }: Row['parameter']) {
  const own = rows.filter((r) => r.parameter.symbol === symbol)
  return own.length < 2 ? null : <span className="soft small"> point {points.join(', ')}</span>
}
