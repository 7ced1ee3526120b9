import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useSearch } from '@tanstack/react-router'
import { type FormEvent, useDeferredValue, useState } from 'react'
import type { RunEntry, TesterEntry } from '#api'
import type { PartType } from '#core/device'
import { wishDefaults } from '#core/sheet'
import { tagProblem } from '#core/tester'
import { Field } from '#web/field'
import { api, openRunsQuery, queryClient, queryKeys, testersQuery, typesQuery, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { whenText } from '#web/typeset'
import { type Asked, remember, remembered, rememberTyping } from './asked.ts'
import { Unmarked } from './fields.tsx'
import { placeIn } from './kept.ts'
import { planOf, usePlan } from './plan.ts'
import { Mind, Preview } from './preview.tsx'
import { TesterWorth } from './tester-worth.tsx'
import { TypeField } from './type-field.tsx'
import './begin.css'

/** Before a run: what on what, and what it will read. */
export function Begin() {
  useScreenTitle('Run')
  const testers = useQuery(testersQuery)
  const types = useQuery(typesQuery)
  const open = useQuery(openRunsQuery)
  const error = testers.error ?? types.error
  if (error !== null) throw error
  if (testers.data === undefined || types.data === undefined) return <Waiting />
  return (
    <div className="screen">
      <header>
        <h1>Run</h1>
        <p className="lead">
          Say what lies on the bench. The run asks one thing at a time; whatever you type is kept at once.
        </p>
        <p>
          No name on it, and you do not know what it is? <Link to="/identify">Ask a meter first</Link>.
        </p>
      </header>
      <OpenRuns runs={open.data ?? []} />
      <BeginForm testers={testers.data} types={types.data.types} />
    </div>
  )
}

/** Runs that were left open. */
function OpenRuns({ runs }: { readonly runs: readonly RunEntry[] }) {
  if (runs.length === 0) return null
  return (
    <section className="spread" aria-labelledby="open-runs">
      <h2 id="open-runs">Left open</h2>
      <ul className="matter open-runs">
        {runs.slice(0, 5).map((r) => (
          <li key={r.id}>
            <Link to="/run/$id" params={{ id: String(r.id) }} className="button">
              Go on with run {r.id}
            </Link>
            <span>
              {r.type ?? 'unmarked part'} on {r.testerName}
              <span className="soft"> · {whereText(r)}</span>
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}

const whereText = (r: RunEntry): string => {
  const part = placeIn(window.localStorage, r.id)?.part ?? r.lastPart
  return `${part === undefined ? 'nothing read yet' : `at ${part}`}, begun ${whenText(r.startedAt)}`
}

interface FormProps {
  readonly testers: readonly TesterEntry[]
  readonly types: readonly PartType[]
}

function BeginForm({ testers, types }: FormProps) {
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const navigate = useNavigate()
  const [asked, setAsked] = useState<Asked>(() => remembered(testers, search))
  const [fault, setFault] = useState<string>()
  const [isBusy, setBusy] = useState(false)
  const entry = testers.find((t) => t.id === asked.tester)
  const planned = usePlan(entry, types, useDeferredValue(asked))
  const set = (change: Partial<Asked>): void => {
    setFault(undefined)
    const next = { ...asked, ...change }
    rememberTyping(next)
    setAsked(next)
  }
  const begin = async (): Promise<void> => {
    const made = planOf(entry, types, asked)
    if (asked.tag.trim() === '') return setFault('The part has no tag yet: write one, such as Q7.')
    const bad = tagProblem(asked.tag)
    if (bad !== undefined) return setFault(`"${asked.tag.trim()}" ${bad.problem}. ${bad.mend}`)
    if ('fault' in made) return setFault(made.fault)
    setBusy(true)
    try {
      const detail = await api.startRun({ tester: asked.tester, type: made.typeName, wishes: made.wishes })
      remember(asked)
      queryClient.setQueryData(queryKeys.run(detail.run.id), detail)
      await navigate({ to: '/run/$id', params: { id: String(detail.run.id) }, search: { tag: asked.tag.trim() } })
    } catch (e) {
      setFault(e instanceof Error ? e.message : String(e))
      setBusy(false)
    }
  }
  const onSubmit = (e: FormEvent): void => {
    e.preventDefault()
    void begin()
  }
  return (
    <form className="begin" onSubmit={onSubmit} noValidate>
      <div className="spread">
        <h2>On the bench</h2>
        <div className="matter begin-fields">
          <TypeField
            types={types}
            value={asked.type}
            onChange={(type) => set({ type })}
            autoFocus={search.type === undefined}
          />
          <Field
            label="Tag of the part"
            value={asked.tag}
            onText={(tag) => set({ tag })}
            hint="Yours to choose: Q7, OP-12."
          />
          <label className="field">
            <span className="field-label">Tester</span>
            <select className="select" value={asked.tester} onChange={(e) => set({ tester: e.target.value })}>
              {testers.map((t) => (
                <option key={t.id} value={t.id}>
                  {t.name}
                </option>
              ))}
            </select>
          </label>
          <Field
            label="Room temperature, °C"
            value={asked.ambient}
            onText={(ambient) => set({ ambient })}
            hint={`Known to ${wishDefaults.ambientU} K. Leakage doubles with each 10 K.`}
            inputMode="decimal"
          />
          {asked.type.trim() === '' && <Unmarked asked={asked} set={set} />}
          <TesterWorth id={asked.tester} />
        </div>
      </div>
      {'sheet' in planned && <Mind sheet={planned.sheet} />}
      <div className="spread">
        <p className="matter step-actions">
          <button type="submit" className="button first step-go" disabled={isBusy}>
            Begin <kbd>Enter</kbd>
          </button>
          {fault !== undefined && (
            <span className="field-fault" role="alert">
              {fault}
            </span>
          )}
        </p>
      </div>
      {'sheet' in planned ? (
        <Preview sheet={planned.sheet} note={planned.note} />
      ) : (
        <p className="begin-fault soft">{planned.fault}</p>
      )}
    </form>
  )
}
