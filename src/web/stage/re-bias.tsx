import { useEffect, useMemo, useState } from 'react'
import { openedCautions, type Power } from '#core/job'
import type { ESeries } from '#core/resistor'
import type { Position, ResistorChange, Rest } from '#core/stage'
import { linePlot } from '#report/plot'
import { stageCoursePlot } from '#report/stage'
import { Plot } from '#web/plot'
import { LetterSymbol, Plain, Prose } from '#web/typeset'
import { ChangeRows } from './change-rows.tsx'
import type { Question } from './question.ts'
import type { ReBiased } from './task.ts'
import { useThread } from './use-thread.ts'
import { StageWordShown } from './verdict.tsx'
import { percent, Table } from './working.tsx'

interface Props {
  readonly question: Question
  /** What the equipment runs from, where that is known. */
  readonly power: Power | undefined
  /** Takes the changed resistors into the position. */
  readonly onChanges: (changes: readonly ResistorChange[]) => void
}

const series: readonly ESeries[] = ['E24', 'E12', 'E6', 'E96']

/** Which resistors to change so that the other part stands as the first one did. */
export function ReBiasPart({ question, power, onChanges }: Props) {
  const { position, own, other } = question
  const first = own[position.place]
  const [from, setFrom] = useState<ESeries>('E24')
  const [found, setFound] = useState<ReBiased>()
  const [fault, setFault] = useState<string>()
  const work = useThread((told) => {
    if (told.kind === 're-bias') setFound(told.reBiased)
    if (told.kind === 'fault') setFault(told.faults.join(' '))
  })
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was found for another question does not hold
  useEffect(() => {
    work.stop()
    setFound(undefined)
    setFault(undefined)
  }, [position, own, other, from])
  if (position.template.rooms.length === 0)
    return <p className="soft">This stage has no standing current to restore.</p>
  if (first === undefined || other === undefined)
    return (
      <p className="soft">
        Choose another type or a part of the drawer above: here it is then worked out which resistors to change for it.
      </p>
    )
  return (
    <>
      <p className="actions">
        <button
          type="button"
          className="button"
          disabled={work.isRunning}
          onClick={() => work.run({ kind: 're-bias', position, parts: own, other, series: from })}
        >
          Find the least change for {other.name}
        </button>
        <label>
          <span className="soft">resistors from</span>{' '}
          <select className="select" value={from} onChange={(e) => setFrom(e.target.value as ESeries)}>
            {series.map((s) => (
              <option key={s}>{s}</option>
            ))}
          </select>
        </label>
        {work.isRunning && (
          <>
            <progress aria-label="Values are being tried" />
            <button type="button" className="button" onClick={work.stop}>
              Stop
            </button>
          </>
        )}
      </p>
      {fault !== undefined && <p className="field-fault">{fault}</p>}
      {found !== undefined && (
        <Found
          found={found}
          position={position}
          names={[first.name, other.name]}
          series={from}
          power={power}
          onChanges={onChanges}
        />
      )}
    </>
  )
}

interface FoundProps {
  readonly found: ReBiased
  readonly position: Position
  readonly names: readonly [first: string, other: string]
  readonly series: ESeries
  readonly power: Power | undefined
  readonly onChanges: Props['onChanges']
}

function Found({
  found: { result, verdict, courses, advice },
  position,
  names,
  series: from,
  power,
  onChanges,
}: FoundProps) {
  const [first, other] = names
  const plot = useMemo(
    () =>
      stageCoursePlot(position, {
        courses: [
          { name: `${first}, as it was`, points: courses.before },
          { name: `${other}, nothing changed`, points: courses.unchanged },
          ...(courses.after === undefined ? [] : [{ name: `${other}, changed`, points: courses.after }]),
        ],
      }),
    [position, first, other, courses],
  )
  if (result === undefined)
    return <p className="field-fault">{first} itself has no operating point here: check the values first.</p>
  const changes = result.changes ?? result.nearest?.changes
  return (
    <div role="status">
      <p className="stage-told">{saidOf(result.changes, result.nearest !== undefined, from)}</p>
      {changes !== undefined && changes.length > 0 && (
        <Table name="Resistors before and after" head={['Resistor', 'before', 'after']}>
          <ChangeRows changes={changes} />
        </Table>
      )}
      <Rests
        rests={[
          [`${first}, as it was`, result.before],
          [`${other}, nothing changed`, result.unchanged],
          [`${other}, changed`, result.after ?? result.nearest?.after],
        ]}
      />
      {verdict !== undefined && (
        <p>
          With these values: <StageWordShown word={verdict.word} />. <Prose text={verdict.why} />
        </p>
      )}
      <figure className="figure">
        <Plot draw={(width) => linePlot(plot, { width })} />
      </figure>
      {changes !== undefined && changes.length > 0 && (
        <p className="actions">
          <button type="button" className="button" onClick={() => onChanges(changes)}>
            Take these values into the position
          </button>
        </p>
      )}
      {advice.length > 0 && (
        <section aria-label="Advice on polarity">
          <h3>Advice on polarity, not worked out here</h3>
          <ul className="stage-advice">
            {advice.map((a) => (
              <li key={a}>{a}</li>
            ))}
          </ul>
        </section>
      )}
      <Cautions power={power} />
    </div>
  )
}

function saidOf(changes: readonly ResistorChange[] | undefined, isNear: boolean, from: ESeries): string {
  if (changes !== undefined)
    return changes.length === 0 ? 'No resistor need be changed.' : `The least change, from ${from}:`
  return isNear
    ? `No values of ${from} bring back both current and drift. The nearest bring back the current:`
    : `No values of ${from} within a decade bring the current back.`
}

const Rests = ({ rests }: { readonly rests: readonly (readonly [string, Rest | undefined])[] }) => (
  <Table
    name="Rest before and after"
    head={[
      'At 25 °C',
      <LetterSymbol key="i" of="I_C" />,
      <LetterSymbol key="v" of="V_CE" />,
      'drift over temperature',
      'least room',
    ]}
  >
    {rests.flatMap(([name, rest]) =>
      rest === undefined
        ? []
        : [
            <tr key={name}>
              <th scope="row">{name}</th>
              <td className="n">
                <Plain value={rest.ic} unit="A" digits={3} />
              </td>
              <td className="n">
                <Plain value={rest.vce} unit="V" digits={3} />
              </td>
              <td className="n">{percent(rest.drift)}</td>
              <td className="n">
                <Plain value={Math.min(...rest.rooms)} unit="V" digits={3} />
              </td>
            </tr>,
          ],
    )}
  </Table>
)

/** What to mind before one works on the equipment. */
const Cautions = ({ power }: { readonly power: Power | undefined }) => (
  <section className="stage-cautions" aria-label="Before you open it">
    <h3>Before you open it</h3>
    {openedCautions(power).map((c) => (
      <p key={c.hazard} className="said small">
        <b>{c.hazard.charAt(0).toUpperCase() + c.hazard.slice(1)}.</b> {c.caution}
      </p>
    ))}
  </section>
)
