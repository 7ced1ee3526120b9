import { useNavigate } from '@tanstack/react-router'
import { useVirtualizer } from '@tanstack/react-virtual'
import {
  type CSSProperties,
  type KeyboardEvent,
  type MouseEvent,
  memo,
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
import './table.css'

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

/** A rem, px; asked of the page once, since it is used for every row there is. */
const remPx = (): number => Number.parseFloat(getComputedStyle(document.documentElement).fontSize)

/** The parts, of which only those in sight are drawn. */
export function PartTable(p: TableProps) {
  const scroller = useRef<HTMLDivElement>(null)
  const [at, setAt] = useState(0)
  const [rem, setRem] = useState(remPx)
  const height = Math.round(rowRem * rem)
  const anchor = useRef(0)
  const [editing, setEditing] = useState<{ readonly row: number; readonly field: Editable }>()
  const navigate = useNavigate()
  const open = (row: number): void => void navigate({ to: '/parts/$tag', params: { tag: p.parts.tags[row]! } })
  const virtual = useVirtualizer({
    count: p.rows.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => height,
    overscan: 8,
  })
  useEffect(() => {
    const measure = (): void => setRem(remPx())
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
    } else if (e.key === 'Enter') open(row)
    else if (e.key === 'F2') setEditing({ row, field: 'places' })
    else if (e.key === 'a' && (e.ctrlKey || e.metaKey)) p.onSelect(only(p.rows))
    else if (e.key === 'Escape') p.onSelect(nothingChosen)
    else return
    e.preventDefault()
  }
  // Rows are drawn again only when what they show changes, so what they call looks at the newest state.
  const latest = useRef(p)
  latest.current = p
  const onField = useCallback((row: number, field: Editable, text: string | undefined): void => {
    if (text !== undefined) latest.current.onEdit(row, field, text)
    setEditing(undefined)
    scroller.current?.focus({ preventScroll: true })
  }, [])
  const onClick = (e: MouseEvent): void => {
    const index = indexAt(e.target)
    const row = p.rows[index]
    if (row === undefined) return
    if (e.target instanceof Element && e.target.closest('a') !== null) {
      if (e.ctrlKey || e.metaKey || e.shiftKey) return
      e.preventDefault()
      open(row)
      return
    }
    setAt(index)
    if (e.shiftKey) p.onSelect(withRows(p.selection, between(p.rows, anchor.current, index)))
    else {
      anchor.current = index
      p.onSelect(toggled(p.selection, [row]))
    }
  }
  const onDoubleClick = (e: MouseEvent): void => {
    const row = p.rows[indexAt(e.target)]
    const field = e.target instanceof Element ? e.target.closest('[data-field]')?.getAttribute('data-field') : undefined
    if (row !== undefined && typeof field === 'string' && isEditable(field)) setEditing({ row, field })
  }
  const slots = useSlots(virtual.getVirtualItems().length)
  return (
    // biome-ignore lint/a11y/useSemanticElements: a table of which only a window is drawn cannot be a table element
    <div
      ref={scroller}
      className={isWide(p.columns, rem, virtual.scrollRect?.width) ? 'parts-table wide' : 'parts-table'}
      role="grid"
      tabIndex={0}
      aria-label="Parts"
      aria-multiselectable="true"
      aria-rowcount={p.rows.length + 1}
      aria-colcount={p.columns.length + 1}
      aria-activedescendant={p.rows.length === 0 ? undefined : `part-row-${current}`}
      style={gridOf(p.columns, (virtual.scrollRect?.width ?? Number.POSITIVE_INFINITY) < narrowRem * rem)}
      onKeyDown={onKey}
    >
      <Head
        columns={p.columns}
        units={p.units}
        rows={p.rows}
        sorting={p.sorting}
        onSort={p.onSort}
        selection={p.selection}
        onSelect={p.onSelect}
      />
      {/* biome-ignore lint/a11y/useSemanticElements: as above */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the grid has the keys */}
      <div
        role="rowgroup"
        className="parts-body"
        style={{ height: virtual.getTotalSize() }}
        onClick={onClick}
        onDoubleClick={onDoubleClick}
      >
        {virtual.getVirtualItems().map((v) => {
          const row = p.rows[v.index]!
          return (
            <Row
              key={v.index % slots}
              parts={p.parts}
              columns={p.columns}
              units={p.units}
              at25={p.at25}
              index={v.index}
              row={row}
              top={v.start}
              isCurrent={v.index === current}
              isChosen={p.selection.rows.has(row)}
              editing={editing?.row === row ? editing.field : undefined}
              onField={onField}
            />
          )
        })}
      </div>
    </div>
  )
}

/** Index of the row in which something was pressed; -1 where it was none. */
function indexAt(target: EventTarget): number {
  const row = target instanceof Element ? target.closest('[data-index]') : null
  return Number(row?.getAttribute('data-index') ?? -1)
}

/** Number of rows drawn at a time: a row that leaves at one end is written over and comes in again at the other. */
function useSlots(drawn: number): number {
  const most = useRef(1)
  most.current = Math.max(most.current, drawn)
  return most.current
}

/** Width of the place for choosing, rem. */
const chooseRem = 2.25

/** Whether a column holds what people wrote, which may be long. */
const isWritten = (c: Column): boolean => c.id === 'places' || c.id === 'usedIn' || c.id === 'lots'

/** Widths on a telephone, rem: tag, type and verdict fit beside each other. */
const narrow: Readonly<Record<string, number>> = { tag: 5, types: 4.9, verdicts: 11.2 }
/** What counts as a telephone, rem. */
const narrowRem = 30

/** Each row is a grid of its own, so every column has one width for all of them; what people wrote takes the rest. */
function gridOf(columns: readonly Column[], isNarrow: boolean): CSSProperties {
  const template = columns.map((c) => {
    const width = (isNarrow ? narrow[c.id] : undefined) ?? c.width
    return isWritten(c) ? `minmax(${width}rem, ${width}fr)` : `${width}rem`
  })
  return { '--columns': [`${chooseRem}rem`, ...template].join(' ') } as CSSProperties
}

/** Whether the table is wider than its place, px: only then its tags stand still, which costs time in scrolling. */
function isWide(columns: readonly Column[], rem: number, place = Number.POSITIVE_INFINITY): boolean {
  return rem * columns.reduce((sum, c) => sum + c.width, chooseRem) > place
}

type HeadProps = Pick<TableProps, 'columns' | 'sorting' | 'onSort' | 'units' | 'rows' | 'selection' | 'onSelect'>

const Head = memo(function Head({ columns, sorting, onSort, units, rows, selection, onSelect }: HeadProps) {
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
})

/** Up, down, then the order in which the parts came. */
function nextSorting(was: Sorting, by: string): Sorting {
  if (was.by !== by) return { by, isDown: false }
  return was.isDown ? { by: 'row', isDown: false } : { by, isDown: true }
}
