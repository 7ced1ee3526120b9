import { useNavigate } from '@tanstack/react-router'
import { useVirtualizer } from '@tanstack/react-virtual'
import {
  type CSSProperties,
  type KeyboardEvent,
  type MouseEvent,
  useCallback,
  useEffect,
  useRef,
  useState,
} from 'react'
import { LetterSymbol } from '#web/typeset'
import { type Editable, isEditable } from './cell-field.tsx'
import type { Column, Prefixed } from './columns.ts'
import type { Sorting } from './order.ts'
import type { Parts } from './parts.ts'
import { Row } from './row.tsx'
import { between, nothingChosen, only, type Selection, toggled, withRows } from './selection.ts'

export interface TableProps {
  readonly parts: Parts
  /** Rows in the order shown. */
  readonly rows: Int32Array
  readonly columns: readonly Column[]
  readonly units: ReadonlyMap<string, Prefixed>
  readonly at25: boolean
  readonly sorting: Sorting
  readonly onSort: (sorting: Sorting) => void
  readonly selection: Selection
  readonly onSelect: (selection: Selection) => void
  readonly onEdit: (row: number, field: Editable, text: string) => void
  /** Changes when other rows are asked for, or in another order: the table then goes back to its top. */
  readonly view: string
}

/** Height of a row in rem: what a thumb can hit on a small screen, what a page can hold on a large one. */
const rowRem = 2.375

/** Height of a row, px; asked of the page once, since it is used for every row there is. */
const rowPx = (): number => Math.round(rowRem * Number.parseFloat(getComputedStyle(document.documentElement).fontSize))

/** The parts, of which only those in sight are drawn. */
export function PartTable(p: TableProps) {
  const scroller = useRef<HTMLDivElement>(null)
  const [at, setAt] = useState(0)
  const [height, setHeight] = useState(rowPx)
  const anchor = useRef(0)
  const [editing, setEditing] = useState<{ readonly row: number; readonly field: Editable }>()
  const navigate = useNavigate()
  const virtual = useVirtualizer({
    count: p.rows.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => height,
    overscan: 8,
  })
  useEffect(() => {
    const measure = (): void => setHeight(rowPx())
    window.addEventListener('resize', measure)
    return () => window.removeEventListener('resize', measure)
  }, [])
  useEffect(() => {
    if (height > 0) virtual.measure()
  }, [height, virtual])
  const current = Math.min(at, Math.max(0, p.rows.length - 1))
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of view that sends the table to its top
  useEffect(() => {
    if (scroller.current !== null && scroller.current.scrollTop > 0) scroller.current.scrollTop = 0
    setAt(0)
    anchor.current = 0
  }, [p.view])
  const go = (to: number, extend: boolean): void => {
    const next = Math.max(0, Math.min(p.rows.length - 1, to))
    setAt(next)
    virtual.scrollToIndex(next)
    if (extend) p.onSelect(only(between(p.rows, anchor.current, next)))
    else anchor.current = next
  }
  const onKey = (e: KeyboardEvent): void => {
    if (editing !== undefined || e.target !== e.currentTarget) return
    const page = Math.max(1, Math.floor((scroller.current?.clientHeight ?? 400) / height) - 2)
    const moves: Readonly<Record<string, number>> = {
      ArrowDown: current + 1,
      ArrowUp: current - 1,
      PageDown: current + page,
      PageUp: current - page,
      Home: 0,
      End: p.rows.length - 1,
    }
    const row = p.rows[current]
    const to = moves[e.key]
    if (to !== undefined) go(to, e.shiftKey)
    else if (row === undefined) return
    else if (e.key === ' ') {
      anchor.current = current
      p.onSelect(toggled(p.selection, [row]))
    } else if (e.key === 'Enter') void navigate({ to: '/parts/$tag', params: { tag: p.parts.tags[row]! } })
    else if (e.key === 'F2') setEditing({ row, field: 'places' })
    else if (e.key === 'a' && (e.ctrlKey || e.metaKey)) p.onSelect(only(p.rows))
    else if (e.key === 'Escape') p.onSelect(nothingChosen)
    else return
    e.preventDefault()
  }
  // Rows are drawn again only when what they show changes, so what they call looks at the newest state.
  const latest = useRef(p)
  latest.current = p
  const onRow = useCallback((e: MouseEvent, index: number): void => {
    const { rows, selection, onSelect } = latest.current
    setAt(index)
    if (e.shiftKey) onSelect(withRows(selection, between(rows, anchor.current, index)))
    else {
      anchor.current = index
      onSelect(toggled(selection, [rows[index]!]))
    }
  }, [])
  const onEdit = useCallback((row: number, field: Editable, text: string): void => {
    latest.current.onEdit(row, field, text)
  }, [])
  // Each row is a grid of its own, so every column has one width for all of them; what people wrote takes the rest.
  const template = p.columns.map((c) => (isEditable(c.id) ? `minmax(${c.width}rem, ${c.width}fr)` : `${c.width}rem`))
  const grid = { '--columns': ['2.25rem', ...template].join(' ') } as CSSProperties
  return (
    // biome-ignore lint/a11y/useSemanticElements: a table of which only a window is drawn cannot be a table element
    <div
      ref={scroller}
      className="parts-table"
      role="grid"
      tabIndex={0}
      aria-label="Parts"
      aria-multiselectable="true"
      aria-rowcount={p.rows.length + 1}
      aria-colcount={p.columns.length + 1}
      aria-activedescendant={p.rows.length === 0 ? undefined : `part-row-${current}`}
      style={grid}
      onKeyDown={onKey}
    >
      <Head {...p} />
      {/* biome-ignore lint/a11y/useSemanticElements: as above */}
      <div role="rowgroup" className="parts-body" style={{ height: virtual.getTotalSize() }}>
        {virtual.getVirtualItems().map((v) => (
          <Row
            key={v.key}
            {...p}
            onEdit={onEdit}
            index={v.index}
            row={p.rows[v.index]!}
            top={v.start}
            isCurrent={v.index === current}
            isChosen={p.selection.rows.has(p.rows[v.index]!)}
            editing={editing !== undefined && editing.row === p.rows[v.index] ? editing.field : undefined}
            onPress={onRow}
            onOpenField={(row, field) => setEditing({ row, field })}
            onCloseField={() => {
              setEditing(undefined)
              scroller.current?.focus({ preventScroll: true })
            }}
          />
        ))}
      </div>
    </div>
  )
}

function Head({ columns, sorting, onSort, units, rows, selection, onSelect }: TableProps) {
  const isAll = rows.length > 0 && selection.rows.size >= rows.length && rows.every((r) => selection.rows.has(r))
  return (
    // biome-ignore lint/a11y/useSemanticElements: as above
    <div role="rowgroup" className="parts-head">
      {/* biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: the grid has the focus */}
      <div role="row" className="parts-row" aria-rowindex={1}>
        {/* biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: as above */}
        <span role="columnheader" className="cell-choose">
          <input
            type="checkbox"
            aria-label="Choose all that are shown"
            checked={isAll}
            onChange={() => onSelect(isAll ? nothingChosen : only(rows))}
          />
        </span>
        {columns.map((c) => {
          const isBy = sorting.by === c.id
          return (
            // biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: its button has the focus
            <span
              key={c.id}
              role="columnheader"
              className={c.kind === 'value' ? 'cell n' : c.kind === 'tag' ? 'cell cell-tag' : 'cell'}
              aria-sort={isBy ? (sorting.isDown ? 'descending' : 'ascending') : 'none'}
            >
              <button type="button" className="sort" title={c.name} onClick={() => onSort(nextSorting(sorting, c.id))}>
                {c.kind === 'value' ? <LetterSymbol of={c.id} /> : c.name}
                {c.kind === 'value' && units.get(c.id)!.text !== '' && (
                  <span className="unit"> {units.get(c.id)!.text}</span>
                )}
                <span aria-hidden="true" className="sort-way">
                  {isBy ? (sorting.isDown ? '↓' : '↑') : ''}
                </span>
              </button>
            </span>
          )
        })}
      </div>
    </div>
  )
}

/** Up, down, then the order in which the parts came. */
function nextSorting(was: Sorting, by: string): Sorting {
  if (was.by !== by) return { by, isDown: false }
  return was.isDown ? { by: 'row', isDown: false } : { by, isDown: true }
}
