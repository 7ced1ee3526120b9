import { Link } from '@tanstack/react-router'
import { useDeferredValue, useMemo, useRef } from 'react'
import { type ESeries, eSeriesNames } from '#core/resistor'
import type { Tester } from '#core/tester'
import { asFound, foundDefaults, testerParts } from '#core/upkeep'
import { useRemembered, useScreenTitle } from '#web/live'
import { FoundKeep } from './found-keep.tsx'
import { FoundLeads } from './found-leads.tsx'
import { FoundMends, FoundRemarks } from './found-mends.tsx'
import { FoundRanges } from './found-ranges.tsx'
import { FoundSheet } from './found-sheet.tsx'
import { readRows, type Sheet } from './found-typed.ts'
import { TakeCare } from './take-care.tsx'
import './found.css'

/** A tester as found: its parts measured and judged, what they do to its ranges, and what mends them. */
export function FoundScreen({ tester }: { readonly tester: Tester }) {
  useScreenTitle(`${tester.name}, as found`)
  const [sheet, setSheet] = useRemembered<Sheet>(`found/${tester.id}`, () => ({}))
  const [series, setSeries] = useRemembered<ESeries>('found-series', () => foundDefaults.series)
  const parts = useMemo(() => testerParts(tester), [tester])
  const later = useDeferredValue(sheet)
  const rows = useMemo(() => readRows(parts, later, tester), [parts, later, tester])
  const values = useMemo(() => rows.flatMap((r) => (r.value === undefined ? [] : [r.value])), [rows])
  const found = useMemo(() => asFound(tester, values, { ...foundDefaults, series }), [tester, values, series])
  const judged = useMemo(() => new Map(found.parts.map((p) => [p.part.id, p])), [found])
  const effect = useRef<HTMLHeadingElement>(null)
  return (
    <article className="screen found">
      <header>
        <h1>As found</h1>
        <p className="lead">
          Open{' '}
          <Link to="/testers/$id" params={{ id: tester.id }}>
            {tester.name}
          </Link>
          , cells out, and measure what you can reach. Enter goes on; what you leave empty counts with its tolerance.
        </p>
        <TakeCare tester={tester} />
      </header>
      <FoundSheet
        rows={rows}
        sheet={sheet}
        judged={judged}
        onTyped={(part, typed) => setSheet({ ...sheet, [part]: typed })}
        onEnd={() => effect.current?.focus()}
      />
      {found.ranges.length > 0 && (
        <section className="spread">
          <h2 ref={effect} tabIndex={-1}>
            Ranges <span className="soft">error at full scale</span>
          </h2>
          <div className="matter">
            <p role="status">{summary(found.parts.map((p) => p.word))}</p>
            <FoundRanges ranges={found.ranges} classPercent={tester.movement!.classPercent} />
            <p className="soft small found-key">
              <i className="found-dot before" /> as found, <i className="found-dot after" /> mended, in percent; the
              bars hold the true error in 95 of 100 cases. Shaded: the class of the movement, ±{' '}
              {tester.movement!.classPercent} %.
            </p>
            <FoundRemarks found={found} />
          </div>
        </section>
      )}
      {found.resistances.length > 0 && (
        <section className="spread">
          <h2>
            Contacts and leads <span className="soft">at full scale</span>
          </h2>
          <div className="matter">
            <FoundLeads resistances={found.resistances} />
          </div>
        </section>
      )}
      <section className="spread">
        <h2>Mends</h2>
        <div className="matter">
          <label className="field found-series">
            <span className="field-label">Resistors at hand, 1 %</span>
            <select className="select" value={series} onChange={(e) => setSeries(e.target.value as ESeries)}>
              {eSeriesNames.map((name) => (
                <option key={name}>{name}</option>
              ))}
            </select>
          </label>
          <FoundMends parts={found.parts} />
        </div>
      </section>
      <section className="spread">
        <h2>
          Keep it <span className="soft">by its day</span>
        </h2>
        <div className="matter">
          <FoundKeep tester={tester} values={values} onSheet={setSheet} />
        </div>
      </section>
      <p className="actions found-foot">
        <Link to="/testers/$id" params={{ id: tester.id }} search={{ trouble: '1' }} className="button">
          Find trouble
        </Link>
        <button type="button" className="word" onClick={() => setSheet({})}>
          Empty the sheet
        </button>
      </p>
    </article>
  )
}

function summary(words: readonly string[]): string {
  const count = (word: string): number => words.filter((w) => w === word).length
  if (words.length === 0) return 'Nothing is measured yet: this is what the tolerances alone allow.'
  return `Of ${words.length} measured, ${count('conforms')} conform, ${count('does not conform')} do not, ${count('undecided')} undecided.`
}
