import type { StandInUse } from '#api'
import type { PositionRead } from '#core/stage'
import type { StandIn } from '#core/standin'
import { Found } from '#web/standin'
import { Prose } from '#web/typeset'
import { ChangeRows } from './change-rows.tsx'
import type { Look } from './question.ts'
import { useStandInSearch } from './use-search.ts'
import { StageWordShown } from './verdict.tsx'

interface Props {
  readonly read: PositionRead
  /** The same as text. */
  readonly text: string
  /** Looks at the stage with a candidate. */
  readonly onLook: (look: Look) => void
}

/** What could stand in a position: published types and parts of the drawer, each held to its need and played in its stage. */
export function StandInsHere({ read: { position, wanted }, text, onLook }: Props) {
  const { use, found, isLooking, isStopped, fault, begin, stop } = useStandInSearch(text)
  const change = (next: StandInUse): void => {
    if (JSON.stringify(next) !== JSON.stringify(use)) begin(next)
  }
  if (wanted[position.place] === undefined)
    return <p className="soft">Name above what stood at {position.place}: what it did there is what is looked for.</p>
  return (
    <div className="stand-ins" aria-busy={isLooking}>
      <p className="actions">
        {isLooking ? (
          <>
            <progress aria-label="Looking for stand-ins" />
            <span className="soft">Looking …</span>
            <button type="button" className="button" onClick={stop}>
              Stop
            </button>
          </>
        ) : (
          found === undefined && (
            <button type="button" className="button" onClick={() => begin(use)}>
              Find what could stand in here
            </button>
          )
        )}
        {isStopped && <span className="soft">Stopped.</span>}
      </p>
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
      {found?.own !== undefined && found.own.word !== 'works' && (
        <p>
          {found.for} itself: <StageWordShown word={found.own.word} />. <Prose text={found.own.why} />
        </p>
      )}
      {found !== undefined && (
        <Found found={found} use={use} onUse={change} about={(c) => <InStage candidate={c} onLook={onLook} />} />
      )}
    </div>
  )
}

interface InStageProps {
  readonly candidate: StandIn
  readonly onLook: Props['onLook']
}

/** How a candidate does in the stage, and the resistors it needs there. */
function InStage({ candidate: { name, type, isPart, play }, onLook }: InStageProps) {
  if (play === undefined) return null
  const { verdict, changes = [], changed } = play
  return (
    <section className="stage-stand-in" aria-label={`${name} in this stage`}>
      <p>
        In this stage as it is: <StageWordShown word={verdict.word} />
      </p>
      {changes.length > 0 && changed !== undefined && (
        <>
          <p>{verdict.word === 'works' ? 'To bring its current back to what it was:' : 'With other resistors:'}</p>
          <table>
            <caption className="vh">Resistors {name} needs</caption>
            <thead>
              <tr>
                <th>Change</th>
                <th className="n">from</th>
                <th className="n">to</th>
              </tr>
            </thead>
            <tbody>
              <ChangeRows changes={changes} />
            </tbody>
          </table>
          <p>
            With these: <StageWordShown word={changed.word} />
          </p>
        </>
      )}
      <p className="actions">
        <button
          type="button"
          className="button"
          onClick={() => onLook(isPart ? { by: 'part', tag: name } : { by: 'type', type })}
        >
          See the stage with {name}
        </button>
      </p>
    </section>
  )
}
