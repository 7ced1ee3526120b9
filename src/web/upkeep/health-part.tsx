import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import type { Upkeep } from '#api'
import type { Unit } from '#core/quantity'
import type { Tester } from '#core/tester'
import { foundState, type HealthEvidence, healthOf } from '#core/upkeep'
import { healthSheet, standardHealth } from '#report/sheet'
import { api, sayDone, upkeepQuery } from '#web/live'
import { Waiting } from '#web/shell'
import { Prose } from '#web/typeset'
import { today } from './calibration-head.tsx'
import { SheetView } from './sheet-view.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

/** What a tester is worth today, range by range, and what that is known by. */
export function HealthPart({ detail: { tester } }: UpkeepProps) {
  const { data, error } = useQuery(upkeepQuery(tester.id))
  if (error !== null) throw error
  if (data === undefined) return <Waiting />
  const health = healthOf(tester, today(), evidenceOf(tester, data))
  return (
    <>
      <SheetView sheet={healthSheet(health)} file={`${tester.id}-health`} />
      {tester.movement !== undefined && <FoundList tester={tester} found={data.found} />}
    </>
  )
}

function evidenceOf(tester: Tester, { standards, found }: Upkeep): HealthEvidence {
  return {
    standards: standards.flatMap((s) =>
      s.groups.length === 0
        ? []
        : [standardHealth({ part: s.part, unit: s.unit as Unit, groups: s.groups }, boundsOf(s))],
    ),
    found: foundState(tester, found, today()),
  }
}

/** The bounds of a standard, where it has any. */
export const boundsOf = ({ low, high }: Upkeep['standards'][number]) => ({
  ...(low === undefined ? {} : { low }),
  ...(high === undefined ? {} : { high }),
})

/** What was measured of its parts, day by day. */
function FoundList({ tester, found }: { readonly tester: Tester; readonly found: Upkeep['found'] }) {
  const drop = async (id: number, day: string): Promise<void> => {
    const { edit } = await api.dropFound(id)
    sayDone({ say: `What was found on ${day} is taken away.`, edit })
  }
  return (
    <section className="spread upkeep-kept">
      <h2>
        Parts as found <span className="soft">kept by day</span>
      </h2>
      <div className="matter">
        {found.length === 0 && <p className="soft">Nothing is kept of its parts yet.</p>}
        <ul>
          {found.map((r) => (
            <li key={r.id}>
              <span>
                <b>{r.day}</b>{' '}
                <span className="soft">
                  {r.parts.length === 1 ? '1 part' : `${r.parts.length} parts`}: {r.parts.map((p) => p.part).join(', ')}
                  {r.note !== undefined && (
                    <>
                      . <Prose text={r.note} />
                    </>
                  )}
                </span>
              </span>
              <button type="button" className="word" onClick={() => void drop(r.id, r.day)}>
                Take away <span className="vh">what was found on {r.day}</span>
              </button>
            </li>
          ))}
        </ul>
        <p className="actions">
          <Link to="/testers/$id" params={{ id: tester.id }} search={{ found: '1' }} className="button">
            Measure its parts
          </Link>
          <Link to="/testers/$id" params={{ id: tester.id }} search={{ trouble: '1' }} className="button">
            Find trouble
          </Link>
        </p>
      </div>
    </section>
  )
}
