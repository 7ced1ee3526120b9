import { TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useNavigate, useSearch } from '@tanstack/react-router'
import { useDeferredValue, useId, useState } from 'react'
import { ApiFault, type Coverage } from '#api'
import type { Tester } from '#core/tester'
import { api, queryKeys, typesQuery } from '#web/live'
import { bookText, ConditionList, LetterSymbol, Prose } from '#web/typeset'

/** What the tester can and cannot measure of a part type one names. */
export function CoveragePart({ tester }: { readonly tester: Tester }) {
  const { type = '' } = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const navigate = useNavigate()
  const [typed, setTyped] = useState(type)
  const wanted = useDeferredValue(typed.trim())
  const list = useId()
  const types = useQuery(typesQuery)
  const { data, error, isFetching } = useQuery({
    queryKey: queryKeys.coverage(tester.id, wanted),
    queryFn: () => api.coverage(tester.id, wanted),
    enabled: wanted.length >= 2,
    retry: false,
    placeholderData: (before) => before,
  })
  const keep = (): void => {
    const search: Record<string, string> = wanted === '' ? {} : { type: wanted }
    void navigate({ to: '/testers/$id', params: { id: tester.id }, search, replace: true, resetScroll: false })
  }
  return (
    <section className="spread">
      <h2>What it can measure</h2>
      <div className="matter">
        <TextInput
          className="field coverage-type"
          label="Of a part type"
          placeholder="AC128"
          list={list}
          value={typed}
          onChange={(e) => setTyped(e.currentTarget.value)}
          onBlur={keep}
          spellCheck={false}
          autoComplete="off"
        />
        <datalist id={list}>
          {types.data?.types.map((t) => (
            <option key={t.type} value={t.type} />
          ))}
        </datalist>
        <div aria-live="polite" aria-busy={isFetching}>
          {wanted.length < 2 ? (
            <p className="soft">Name a type to see which of its limits this tester reaches, and why not the others.</p>
          ) : error instanceof ApiFault ? (
            <p className="said">{error.message}</p>
          ) : (
            data !== undefined && <Answer coverage={data} />
          )}
        </div>
      </div>
    </section>
  )
}

function Answer({ coverage: c }: { readonly coverage: Coverage }) {
  return (
    <div className="coverage">
      <div>
        <h3>It reads of {c.type}</h3>
        <ul>
          {c.can.map((r) => (
            <li key={`${r.symbol}${r.range ?? ''}${JSON.stringify(r.conditions)}`} className="quiet">
              <span className="coverage-symbol">
                {r.symbol === 'short' ? 'short check' : <LetterSymbol of={r.symbol} />}
              </span>
              <span>
                {r.range !== undefined && `on ${bookText(r.range)}`}
                {Object.keys(r.conditions).length > 0 && (
                  <span className="soft">
                    {' '}
                    at <ConditionList at={r.conditions} />
                  </span>
                )}
              </span>
            </li>
          ))}
          {c.can.length === 0 && <li className="soft">Nothing.</li>}
        </ul>
      </div>
      <div>
        <h3>It does not</h3>
        <ul>
          {c.gaps.map((g) => (
            <li key={g.symbol}>
              <span className="coverage-symbol">
                <LetterSymbol of={g.symbol} />
              </span>
              <span>
                <Prose text={g.why} />{' '}
                {g.mend !== undefined && (
                  <span className="soft">
                    <Prose text={g.mend} />
                  </span>
                )}
              </span>
            </li>
          ))}
          {c.gaps.length === 0 && <li className="soft">Every published limit is reached.</li>}
        </ul>
      </div>
      {c.assumed.length > 0 && (
        <p className="soft small">
          Taken for granted: <Prose text={c.assumed.join(' ')} />
        </p>
      )}
    </div>
  )
}
