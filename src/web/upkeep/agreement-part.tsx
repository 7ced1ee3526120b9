import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useMemo } from 'react'
import { ApiFault } from '#api'
import type { Unit } from '#core/quantity'
import {
  type Comparison,
  compareExampleCsv,
  compareTesters,
  interchange,
  type PairedTable,
  type Purpose,
  readPairedTable,
} from '#core/upkeep'
import { comparisonSheet } from '#report/sheet'
import { Field } from '#web/field'
import { testersQuery, useRemembered } from '#web/live'
import { type Attempt, attempt, positiveOf } from './attempt.ts'
import { pairedQuery } from './query.ts'
import { Result } from './result.tsx'
import { TableField } from './table-field.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

interface Wish {
  /** Id of the other tester; empty for a table. */
  readonly other: string
  readonly symbol: string
  readonly table: string
  readonly scale: Comparison['scale']
  readonly within: string
  readonly kind: 'max' | 'min'
  readonly limit: string
}

const noWish: Wish = { other: '', symbol: 'h_FE', table: '', scale: 'difference', within: '', kind: 'max', limit: '' }

const symbols = ['h_FE', 'I_CEO', 'I_CBO', 'I_CES', 'I_EBO', 'V_BE', 'V_CE(sat)', 'V_F', 'I_R'] as const

/** Two testers compared by parts that were read on both. */
export function AgreementPart({ detail: { tester } }: UpkeepProps) {
  const [wish, setWish] = useRemembered<Wish>(`agreement/${tester.id}`, () => noWish)
  const later = useDeferredValue(wish)
  const { data: testers } = useQuery(testersQuery)
  const paired = useQuery({ ...pairedQuery(tester.id, later.other, later.symbol), enabled: later.other !== '' })
  const table = useMemo((): Attempt<PairedTable> | undefined => {
    if (later.other === '')
      return later.table.trim() === '' ? undefined : attempt(() => readPairedTable(later.table, ''))
    if (paired.error instanceof ApiFault) return { ok: false, faults: paired.error.faults.map((f) => f.sentence) }
    return paired.data === undefined ? undefined : { ok: true, value: paired.data as PairedTable }
  }, [later.other, later.table, paired.data, paired.error])
  const sheet = useMemo(() => (table?.ok === true ? compared(table.value, later) : table), [table, later])
  const set = (change: Partial<Wish>): void => setWish({ ...wish, ...change })
  return (
    <>
      <section className="spread">
        <h2>What was read</h2>
        <div className="matter">
          <div className="upkeep-fields">
            <label className="field">
              <span className="field-label">Against</span>
              <select className="select" value={wish.other} onChange={(e) => set({ other: e.target.value })}>
                <option value="">a table I paste here</option>
                {testers
                  ?.filter((t) => t.from === 'book' && t.id !== tester.id)
                  .map((t) => (
                    <option key={t.id} value={t.id}>
                      {t.name}, by parts of the book
                    </option>
                  ))}
              </select>
            </label>
            {wish.other !== '' && (
              <label className="field">
                <span className="field-label">What is compared</span>
                <select className="select" value={wish.symbol} onChange={(e) => set({ symbol: e.target.value })}>
                  {symbols.map((s) => (
                    <option key={s}>{s}</option>
                  ))}
                </select>
              </label>
            )}
          </div>
          {wish.other === '' && (
            <TableField
              label="Parts read on both"
              hint="A column for the part and one for each tester, with its name and unit: Larkfield [uA]. A part may stand in several rows."
              text={wish.table}
              example={compareExampleCsv}
              onText={(text) => set({ table: text })}
            />
          )}
        </div>
      </section>
      <section className="spread">
        <h2>What for</h2>
        <div className="matter upkeep-fields">
          <label className="field">
            <span className="field-label">Compare by</span>
            <select
              className="select"
              value={wish.scale}
              onChange={(e) => set({ scale: e.target.value as Wish['scale'] })}
            >
              <option value="difference">difference</option>
              <option value="ratio">ratio</option>
            </select>
          </label>
          <Field
            label="A difference does no harm within"
            example={wish.scale === 'ratio' ? '5 %' : '2 uA'}
            value={wish.within}
            onText={(text) => set({ within: text })}
          />
          <label className="field">
            <span className="field-label">Parts are held against</span>
            <select
              className="select"
              value={wish.kind}
              onChange={(e) => set({ kind: e.target.value as Wish['kind'] })}
            >
              <option value="max">at most</option>
              <option value="min">at least</option>
            </select>
          </label>
          <Field label="a limit of" example="50 uA" value={wish.limit} onText={(text) => set({ limit: text })} />
        </div>
      </section>
      <Result
        of={sheet}
        file="two-testers"
        first="Name another tester, or paste a table of parts that were read on both."
      />
    </>
  )
}

const compared = (table: PairedTable, wish: Wish) =>
  attemptWith(purposeOf(wish, table.unit), (purpose) => {
    const c = compareTesters(table.names, table.unit, table.parts, { scale: wish.scale })
    return comparisonSheet(c, interchange(c, purpose), table.notes)
  })

const attemptWith = <T, U>(first: Attempt<T>, then: (value: T) => U): Attempt<U> =>
  first.ok ? attempt(() => then(first.value)) : first

/** What they are to be interchangeable for. */
function purposeOf({ within, kind, limit, scale }: Wish, unit: Unit): Attempt<Purpose> {
  const allowed = positiveOf(within, scale === 'ratio' ? '1' : unit)
  const bound = positiveOf(limit, unit)
  if (!allowed.ok) return allowed
  if (!bound.ok) return bound
  return {
    ok: true,
    value: {
      ...(allowed.value === undefined ? {} : { within: allowed.value }),
      ...(bound.value === undefined ? {} : { limit: { kind, value: bound.value } }),
    },
  }
}
