import { useEffect, useMemo, useState } from 'react'
import { makeStage, runawayText, type Spread, type State, stageAt } from '#core/stage'
import { linePlot } from '#report/plot'
import { stageCoursePlot } from '#report/stage'
import { Plot } from '#web/plot'
import { LetterSymbol, SpanOf } from '#web/typeset'
import type { Question } from './question.ts'
import type { Answered } from './task.ts'
import { useThread } from './use-thread.ts'
import { degrees } from './verdict.tsx'
import { percent, Table } from './working.tsx'

interface Props {
  readonly question: Question
  readonly answered: Answered
  readonly state: State
}

/** Stages of a spread to choose from. */
const counts = [500, 2000, 10_000] as const

/** How long a position must stand before its spread is drawn, ms. */
const rest = 700

/** Current and voltage over temperature: of the part, of what it stands in for, and of many such stages. */
export function Over({ question, answered, state }: Props) {
  const { position, own, parts, other } = question
  const [count, setCount] = useState<number>(counts[0])
  const [spread, setSpread] = useState<Spread>()
  const [done, setDone] = useState(0)
  const work = useThread((told) => {
    if (told.kind === 'done') setDone(told.done)
    if (told.kind === 'spread') setSpread(told.spread)
  })
  const hasSpread = position.template.rooms.length > 0
  // biome-ignore lint/correctness/useExhaustiveDependencies: the thread is begun anew with the position alone
  useEffect(() => {
    work.stop()
    setSpread(undefined)
    setDone(0)
    if (!hasSpread) return
    const wait = setTimeout(() => work.run({ kind: 'spread', position, parts: own, count }), rest)
    return () => clearTimeout(wait)
  }, [position, own, count, hasSpread])
  const plot = useMemo(() => {
    const name = parts[position.place]?.name ?? ''
    const outcome = stageAt(makeStage(position, parts), 25, state)
    const first = own[position.place]?.name
    return stageCoursePlot(position, {
      courses: [
        ...(answered.published === undefined || first === undefined
          ? []
          : [{ name: first, points: answered.published.course }]),
        { name, points: answered.course },
      ],
      ...(spread === undefined || state !== position.template.states[0] ? {} : { spread }),
      ...(outcome.kind === 'point' ? { reference: outcome.point } : {}),
    })
  }, [position, own, parts, answered, spread, state])
  return (
    <>
      <figure className="figure">
        <Plot draw={(width) => linePlot(plot, { width })} />
        {hasSpread && (
          <figcaption className="small">
            Dotted: where the current has moved too far, and where no room is left for the signal as it is at 25 °C.{' '}
            {spread !== undefined &&
              `The band holds 95 of 100 stages with ${own[position.place]?.name ?? 'such parts'} and resistors within their tolerances.`}
          </figcaption>
        )}
      </figure>
      {hasSpread && (
        <div className="stage-spread">
          <h3>
            How such stages spread{other !== undefined && `, with ${own[position.place]?.name ?? 'the published type'}`}
          </h3>
          <p className="actions">
            <label>
              <span className="soft">stages</span>{' '}
              <select className="select" value={count} onChange={(e) => setCount(Number(e.target.value))}>
                {counts.map((n) => (
                  <option key={n} value={n}>
                    {n}
                  </option>
                ))}
              </select>
            </label>
            {work.isRunning && (
              <>
                <progress max={count} value={done} aria-label="Stages done" />
                <button type="button" className="button" onClick={work.stop}>
                  Stop
                </button>
              </>
            )}
            {!work.isRunning && spread === undefined && done > 0 && <span className="soft">Stopped.</span>}
          </p>
          {spread !== undefined && <SpreadTable spread={spread} />}
          {spread !== undefined && runawayText(spread).map((say) => <p key={say}>{say}</p>)}
        </div>
      )}
    </>
  )
}

const SpreadTable = ({ spread }: { readonly spread: Spread }) => (
  <Table
    name="Spread"
    head={['Air', <LetterSymbol key="i" of="I_C" />, <LetterSymbol key="v" of="V_CE" />, 'have room']}
  >
    {spread.at.map((s) => (
      <tr key={s.temperatureC}>
        <th scope="row">{degrees(s.temperatureC)}</th>
        <td className="n">
          <SpanOf from={s.ic[0]} to={s.ic[2]} unit="A" digits={3} />
        </td>
        <td className="n">
          <SpanOf from={s.vce[0]} to={s.vce[2]} unit="V" digits={3} />
        </td>
        <td className="n">{percent(s.holds)}</td>
      </tr>
    ))}
  </Table>
)
