import { useDeferredValue, useMemo } from 'react'
import { type GaugeOptions, gaugeExampleCsv, gaugeStudy, readGaugeStudy } from '#core/upkeep'
import { gaugeSheet } from '#report/sheet'
import { Field } from '#web/field'
import { useRemembered } from '#web/live'
import { attempt, positiveOf } from './attempt.ts'
import { Result } from './result.tsx'
import { TableField } from './table-field.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

interface Typed {
  readonly table: string
  readonly method: GaugeOptions['method']
  readonly tolerance: string
}

/** How far several hands agree on a tester, and each with itself. */
export function HandsPart({ detail: { tester } }: UpkeepProps) {
  const [typed, setTyped] = useRemembered<Typed>(`hands/${tester.id}`, () => ({
    table: '',
    method: 'anova',
    tolerance: '',
  }))
  const later = useDeferredValue(typed)
  const sheet = useMemo(() => (later.table.trim() === '' ? undefined : studied(later)), [later])
  const set = (change: Partial<Typed>): void => setTyped({ ...typed, ...change })
  return (
    <>
      <section className="spread">
        <h2>Readings</h2>
        <div className="matter">
          <TableField
            label="Every part by every hand, equally often"
            hint="Columns part, hand and reading, a row for each reading; the unit stands over the column: reading [uA]."
            text={typed.table}
            example={gaugeExampleCsv}
            onText={(table) => set({ table })}
          />
          <div className="upkeep-fields">
            <label className="field">
              <span className="field-label">Worked out by</span>
              <select
                className="select"
                value={typed.method}
                onChange={(e) => set({ method: e.target.value as Typed['method'] })}
              >
                <option value="anova">analysis of variance</option>
                <option value="ranges">averages and ranges</option>
              </select>
            </label>
            <Field
              label="From lower to upper limit of the parts"
              example="50 uA; may stay empty"
              value={typed.tolerance}
              onText={(text) => set({ tolerance: text })}
            />
          </div>
        </div>
      </section>
      <Result
        of={sheet}
        file="several-hands"
        first="Paste a table: ten parts, two or three hands, each two or three times, say how far hands agree."
      />
    </>
  )
}

function studied({ table, method, tolerance }: Typed) {
  const study = attempt(() => readGaugeStudy(table, ''))
  if (!study.ok) return study
  const width = positiveOf(tolerance, study.value.unit)
  if (!width.ok) return width
  const options = { method, ...(width.value === undefined ? {} : { tolerance: width.value }) }
  return attempt(() => gaugeSheet(study.value, gaugeStudy(study.value, options)))
}
