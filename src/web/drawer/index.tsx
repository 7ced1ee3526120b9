import { useSearch } from '@tanstack/react-router'
import { useDeferredValue, useMemo, useRef, useState } from 'react'
import { useShortcut } from '#web/keys'
import { api, queryClient, queryKeys, sayDone, useRemembered, useScreenTitle } from '#web/live'
import { NothingRead, Waiting } from '#web/shell'
import { TemperatureChoice } from '#web/typeset'
import { changeKeys, type Editable } from './cell-field.tsx'
import { ColumnChooser } from './chooser.tsx'
import { columnsAtFirst, columnsOf, type Prefixed, unitsOf, usualUnit } from './columns.ts'
import { matching } from './filter.ts'
import { Look, type LookAt } from './look.tsx'
import { listed, type Sorting, sortingDefault } from './order.ts'
import { outcomesOf } from './outcome.ts'
import type { Parts, WordField } from './parts.ts'
import { nothingChosen, type Selection } from './selection.ts'
import { SelectionBar } from './selection-bar.tsx'
import { PartTable } from './table.tsx'
import { useParts } from './use-drawer.ts'
import './drawer.css'

/** All parts of the book. */
export function DrawerScreen() {
  useScreenTitle('Drawer')
  const { data, error } = useParts()
  if (data === undefined && error !== null) throw error
  if (data === undefined) return <Waiting />
  return data.count === 0 ? <EmptyDrawer /> : <FullDrawer parts={data} />
}

const EmptyDrawer = () => (
  <NothingRead title="Drawer">
    Nothing lies in this drawer yet. A part comes into the book with its first reading: begin a run, or open the demo on
    the start page to see a drawer with fourteen parts in it.
  </NothingRead>
)

type WordFilters = Readonly<Partial<Record<WordField, string>>>

const filtered = [
  { field: 'types', name: 'Type' },
  { field: 'statuses', name: 'Status' },
  { field: 'lots', name: 'Lot' },
] as const

function FullDrawer({ parts }: { readonly parts: Parts }) {
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const [text, setText] = useState(search.q ?? '')
  const [words, setWords] = useState<WordFilters>(() => ({
    ...(search.lot === undefined ? {} : { lots: search.lot }),
    ...(search.type === undefined ? {} : { types: search.type }),
  }))
  const [outcome, setOutcome] = useState(search.verdict ?? '')
  const [sorting, setSorting] = useState<Sorting>(sortingDefault)
  const [selection, setSelection] = useState<Selection>(nothingChosen)
  const [isOnly, setOnly] = useState(false)
  const [isMore, setMore] = useState(false)
  const [at25, setAt25] = useRemembered('drawer-25', () => false)
  const [shown, setShown] = useRemembered<readonly string[]>('drawer-columns', () => columnsAtFirst(parts))
  const [powers, setPowers] = useRemembered<Readonly<Record<string, number>>>('drawer-units', () => ({}))
  const [look, setLook] = useRemembered<LookAt>('drawer-look', () => ({ kind: 'none', x: '', y: '' }))
  const field = useRef<HTMLInputElement>(null)
  useShortcut({ keys: 'f', says: 'Filter the drawer.', group: 'Drawer' }, () => field.current?.focus())
  const alone = isOnly && selection.rows.size > 0 ? selection.rows : undefined
  const rows = useMemo(() => {
    const keep = matching(parts, { text, words, outcome })
    if (alone !== undefined) for (let i = 0; i < keep.length; i++) if (!alone.has(i)) keep[i] = 0
    return listed(parts, keep, sorting, at25)
  }, [parts, text, words, outcome, sorting, at25, alone])
  const lists = useMemo(() => listsOf(parts), [parts])
  const all = useMemo(() => columnsOf(parts), [parts])
  const columns = useMemo(() => all.filter((c) => c.kind === 'tag' || shown.includes(c.id)), [all, shown])
  const units = useMemo(() => unitMap(parts, powers), [parts, powers])
  const symbols = useMemo(() => all.filter((c) => c.kind === 'value').map((c) => c.id), [all])
  const lookAt = useMemo(() => laidLook(look, shown, symbols), [look, shown, symbols])
  const lookRows = useDeferredValue(rows)
  const edit = (tags: readonly string[], key: Editable, value: string): void => void change(tags, key, value)
  return (
    <div className="screen drawer">
      <header>
        <h1>Drawer</h1>
        <p className="drawer-count" role="status">
          {rows.length === parts.count
            ? parts.count < parts.total
              ? `${parts.count.toLocaleString('en')} of ${parts.total.toLocaleString('en')} parts are here, the rest is coming`
              : `${parts.count.toLocaleString('en')} ${parts.count === 1 ? 'part' : 'parts'}`
            : `${rows.length.toLocaleString('en')} of ${parts.count.toLocaleString('en')} parts`}
        </p>
      </header>
      <div className={isMore ? 'drawer-filters more' : 'drawer-filters'}>
        <label className="field drawer-text">
          <span className="field-label">Show only</span>
          <input
            ref={field}
            className="input"
            type="search"
            spellCheck={false}
            autoComplete="off"
            value={text}
            placeholder="drawer 3, h_FE>100, I_CEO<200u"
            onChange={(e) => setText(e.target.value)}
          />
        </label>
        <button type="button" className="word drawer-more" aria-expanded={isMore} onClick={() => setMore(!isMore)}>
          {isMore ? 'Fewer filters and views' : 'More filters, plots, columns'}
        </button>
        {filtered.map(({ field: f, name }) => (
          <WordSelect
            key={f}
            list={lists[f]}
            name={name}
            value={words[f] ?? ''}
            onChange={(w) => setWords({ ...words, [f]: w })}
          />
        ))}
        <WordSelect list={lists.outcomes} name="Verdict" value={outcome} onChange={setOutcome} />
      </div>
      <div className={isMore ? 'drawer-ways more' : 'drawer-ways'}>
        <fieldset className="choice">
          <legend className="vh">Look at the parts as</legend>
          {(['none', 'scatter', 'histogram'] as const).map((kind) => (
            <label key={kind}>
              <input
                type="radio"
                name="look"
                checked={look.kind === kind}
                onChange={() => setLook({ ...lookAt, kind })}
              />
              {kind === 'none' ? 'Table' : kind === 'scatter' ? 'with scatter' : 'with histogram'}
            </label>
          ))}
        </fieldset>
        <TemperatureChoice at25={at25} onAt25={setAt25} />
        <ColumnChooser
          parts={parts}
          all={all}
          shown={shown}
          onShown={setShown}
          units={units}
          onUnit={(symbol, power) => setPowers({ ...powers, [symbol]: power })}
        />
      </div>
      {lookAt.kind !== 'none' && symbols.length > 0 && (
        <Look
          parts={parts}
          rows={lookRows}
          at25={at25}
          look={lookAt}
          onLook={setLook}
          selection={selection}
          onSelect={setSelection}
          symbols={symbols}
        />
      )}
      <PartTable
        parts={parts}
        rows={rows}
        columns={columns}
        units={units}
        at25={at25}
        sorting={sorting}
        onSort={setSorting}
        selection={selection}
        onSelect={setSelection}
        view={JSON.stringify([text, words, outcome, sorting, at25])}
        onEdit={(row, key, value) => edit([parts.tags[row]!], key, value)}
      />
      {rows.length === 0 && <p className="drawer-none">No part is like that. Take a word away from the filter.</p>}
      <div className="drawer-foot">
        {selection.rows.size > 0 ? (
          <SelectionBar
            tags={[...selection.rows].map((r) => parts.tags[r]!)}
            onChange={(key, value) =>
              edit(
                [...selection.rows].map((r) => parts.tags[r]!),
                key,
                value,
              )
            }
            onClear={() => {
              setSelection(nothingChosen)
              setOnly(false)
            }}
            isOnly={isOnly}
            onOnly={setOnly}
          />
        ) : (
          <p className="soft small drawer-hint">
            Press a row to choose it, with Shift up to there. Double-click a status, place or lot to change it. By keys:
            arrows, Space, Enter opens, F2 changes the place.
          </p>
        )}
      </div>
    </div>
  )
}

interface WordSelectProps {
  readonly list: readonly string[]
  readonly name: string
  readonly value: string
  readonly onChange: (word: string) => void
}

const inOrder = new Intl.Collator('en', { numeric: true })

/** What the drawer can be filtered by. */
const listsOf = (parts: Parts) => {
  const sorted = (field: WordField): readonly string[] => [...parts.words[field].words].sort(inOrder.compare)
  return {
    types: sorted('types'),
    statuses: sorted('statuses'),
    lots: sorted('lots'),
    outcomes: outcomesOf(parts) as readonly string[],
  }
}

function WordSelect({ list, name, value, onChange }: WordSelectProps) {
  if (list.length < 2 && value === '') return null
  return (
    <label className="field">
      <span className="field-label">{name}</span>
      <select className="select" value={value} onChange={(e) => onChange(e.target.value)}>
        <option value="">any</option>
        {value !== '' && !list.includes(value) && <option>{value}</option>}
        {list.map((w) => (
          <option key={w}>{w}</option>
        ))}
      </select>
    </label>
  )
}

function unitMap(parts: Parts, powers: Readonly<Record<string, number>>): ReadonlyMap<string, Prefixed> {
  return new Map(
    [...parts.symbols].map(([symbol, v]) => {
      const chosen = unitsOf(v.unit).find((u) => u.power === powers[symbol])
      return [symbol, chosen ?? usualUnit(v)]
    }),
  )
}

/** Axes that are there: gain up and leakage across where nothing else was chosen. */
function laidLook(look: LookAt, shown: readonly string[], symbols: readonly string[]): LookAt {
  const has = (s: string): boolean => symbols.includes(s)
  const values = shown.filter(has)
  const leakage = ['I_CEO', 'I_CBO'].find(has)
  const x = has(look.x) ? look.x : look.kind === 'histogram' ? (values[0] ?? symbols[0]) : (leakage ?? symbols.at(-1))
  const y = has(look.y) ? look.y : (values.find((s) => s !== x) ?? symbols[0])
  return { ...look, x: x ?? '', y: y ?? '' }
}

async function change(tags: readonly string[], field: Editable, value: string): Promise<void> {
  try {
    const { edit } = await api.changeParts(tags, { [changeKeys[field]]: value })
    await queryClient.invalidateQueries({ queryKey: queryKeys.drawer })
    const what = tags.length === 1 ? tags[0] : `${tags.length.toLocaleString('en')} parts`
    sayDone({
      say: `${what}: ${changeWords[field]} ${value === '' ? 'taken away' : `is ${value} now`}.`,
      ...(edit === undefined ? {} : { edit }),
    })
  } catch (e) {
    sayDone({ say: e instanceof Error ? e.message : String(e) })
  }
}

const changeWords = { statuses: 'status', places: 'place', usedIn: 'where it is used', lots: 'lot' } as const
