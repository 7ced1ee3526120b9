import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { StandInUse } from '#api'
import type { Availability } from '#core/standin'
import { api, queryKeys, sayDone } from '#web/live'
import { Found } from '#web/standin'

/** What stands in for a type that is dead or no longer made, with every margin and reason. */
export function StandIns({ type }: { readonly type: string }) {
  const [use, setUse] = useState<StandInUse>({})
  const { data } = useQuery({
    queryKey: [...queryKeys.standIns, type, use],
    queryFn: () => api.standIns(type, use),
    placeholderData: keepPreviousData,
  })
  return (
    <section className="spread stand-ins" aria-labelledby="stand-ins">
      <h2 id="stand-ins">
        Stand-ins <span className="soft">where it is dead, or no longer made</span>
      </h2>
      <div className="matter">
        {data !== undefined && data.for === type && (
          <Found
            key={type}
            found={data}
            use={use}
            onUse={setUse}
            beside={<Mark type={type} mark={data.availability} />}
          />
        )}
      </div>
    </section>
  )
}

const words: readonly Availability[] = ['plenty', 'available', 'scarce', 'gone']

/** How well the type itself can be had; it stands beside it where it stands in for others. */
function Mark({ type, mark }: { readonly type: string; readonly mark: Availability | undefined }) {
  const [fault, setFault] = useState<string>()
  const keep = (word: string): void => {
    const chosen = words.find((w) => w === word)
    setFault(undefined)
    const say = chosen === undefined ? `${type} lost its mark.` : `${type} was marked as ${chosen}.`
    api.markType(type, chosen).then(
      ({ edit }) => edit !== undefined && sayDone({ say, edit }),
      (e: unknown) => setFault(e instanceof Error ? e.message : String(e)),
    )
  }
  return (
    <label className="field type-mark">
      <span className="field-label">How {type} itself can be had</span>
      <select className="select" value={mark ?? ''} onChange={(e) => keep(e.target.value)}>
        <option value="">not marked</option>
        {words.map((w) => (
          <option key={w} value={w}>
            {w}
          </option>
        ))}
      </select>
      {fault !== undefined && <span className="field-fault">{fault}</span>}
    </label>
  )
}
