import { useQuery } from '@tanstack/react-query'
import { useMemo, useState } from 'react'
import { ApiFault, type Upkeep } from '#api'
import { letterSymbols } from '#core/device'
import type { Unit } from '#core/quantity'
import { chartRules, type RuleSet, steadiness } from '#core/upkeep'
import { steadinessSheet } from '#report/sheet'
import { Field } from '#web/field'
import { api, sayDone, upkeepQuery, useRemembered } from '#web/live'
import { Waiting } from '#web/shell'
import { LetterSymbol } from '#web/typeset'
import { attempt } from './attempt.ts'
import { FaultList } from './faults.tsx'
import { boundsOf } from './health-part.tsx'
import { SheetView } from './sheet-view.tsx'
import { type FieldSpec, Fields, readFields, startOf } from './typed-fields.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

/** Stable parts read now and then, and what they say of the tester. */
export function StandardsPart({ detail: { tester } }: UpkeepProps) {
  const { data, error } = useQuery(upkeepQuery(tester.id))
  const [rules, setRules] = useRemembered<RuleSet>('chart-rules', () => 'western-electric')
  if (error !== null) throw error
  if (data === undefined) return <Waiting />
  return (
    <>
      {data.standards.length === 0 ? (
        <p className="upkeep-intro">
          Put a few stable parts aside, read them on {tester.name} every month or so in a run like any other, and name
          them here. Each then has its chart, and raises an alarm when the tester changes.
        </p>
      ) : (
        <label className="field upkeep-short">
          <span className="field-label">Patterns that raise an alarm</span>
          <select className="select" value={rules} onChange={(e) => setRules(e.target.value as RuleSet)}>
            {Object.keys(chartRules).map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
      )}
      {data.standards.map((s) => (
        <Standard key={s.id} standard={s} rules={rules} />
      ))}
      <NameStandard id={tester.id} often={data.often} />
    </>
  )
}

interface StandardProps {
  readonly standard: Upkeep['standards'][number]
  readonly rules: RuleSet
}

function Standard({ standard: s, rules }: StandardProps) {
  const charted = useMemo(
    () =>
      attempt(() => {
        const bounds = boundsOf(s)
        const own = { part: s.part, unit: s.unit as Unit, groups: s.groups }
        return steadinessSheet(s.part, [steadiness(own, { rules }, bounds)], bounds)
      }),
    [s, rules],
  )
  const drop = async (): Promise<void> => {
    const { edit } = await api.dropStandard(s.id)
    sayDone({ say: `${s.part} is no longer a check standard.`, edit })
  }
  return (
    <section className="spread">
      <h2>
        {s.part}{' '}
        <span className="soft">
          <LetterSymbol of={s.symbol} />
        </span>
      </h2>
      <div className="matter">
        {charted.ok ? (
          <SheetView sheet={charted.value} file={`${s.part}-chart`} />
        ) : (
          <p className="soft">
            It says nothing yet: read it on three days or more. So far it was read on {s.groups.length}.
          </p>
        )}
        <p className="actions">
          <button type="button" className="word" onClick={() => void drop()}>
            Name {s.part} no longer
          </button>
        </p>
      </div>
    </section>
  )
}

const symbols = ['h_FE', 'I_CEO', 'I_CBO', 'I_CES', 'I_EBO', 'V_BE', 'V_F', 'I_R'] as const

interface NameProps {
  readonly id: string
  readonly often: Upkeep['often']
}

/** Names a further one: its part, what is followed, and bounds it should keep. */
function NameStandard({ id, often }: NameProps) {
  const [part, setPart] = useState('')
  const [symbol, setSymbol] = useState<string>(symbols[0])
  const unit = letterSymbols[symbol]?.unit ?? '1'
  const specs = useMemo(() => {
    const bound = (label: string): FieldSpec => ({ label, unit, start: '', isOptional: true, hint: 'may stay empty' })
    return { low: bound('Not below'), high: bound('Not above') }
  }, [unit])
  const [texts, setTexts] = useState(() => startOf(specs))
  const [faults, setFaults] = useState<readonly string[]>([])
  const read = readFields(specs, texts)
  const name = async (): Promise<void> => {
    const { low, high } = read.values
    const bounds = { ...(low && { low: low.value }), ...(high && { high: high.value }) }
    try {
      const { edit } = await api.keepStandard(id, { part: part.trim(), symbol, ...bounds })
      sayDone({ say: `${symbol} of ${part.trim()} is a check standard now.`, edit })
      setPart('')
      setFaults([])
    } catch (error) {
      if (!(error instanceof ApiFault)) throw error
      setFaults(error.faults.map((f) => f.sentence))
    }
  }
  return (
    <section className="spread">
      <h2>Name one</h2>
      <form
        className="matter"
        onSubmit={(e) => {
          e.preventDefault()
          void name()
        }}
      >
        <div className="upkeep-fields">
          <Field label="Part, by its tag" list="upkeep-often" value={part} onText={setPart} />
          <datalist id="upkeep-often">
            {often.map((o) => (
              <option key={o.part} value={o.part}>
                read in {o.runs} runs
              </option>
            ))}
          </datalist>
          <label className="field">
            <span className="field-label">What is followed</span>
            <select className="select" value={symbol} onChange={(e) => setSymbol(e.target.value)}>
              {symbols.map((s) => (
                <option key={s}>{s}</option>
              ))}
            </select>
          </label>
          <Fields specs={specs} texts={texts} faults={read.faults} onTexts={setTexts} />
        </div>
        {faults.length > 0 && <FaultList faults={faults} />}
        <p className="actions">
          <button type="submit" className="button" disabled={part.trim() === '' || !read.isWhole}>
            Name it
          </button>
        </p>
      </form>
    </section>
  )
}
