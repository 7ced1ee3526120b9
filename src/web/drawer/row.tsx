import { memo } from 'react'
import { OutcomeWord } from '#web/typeset'
import { CellField, type Editable, isEditable } from './cell-field.tsx'
import { type Column, inUnit, type Prefixed } from './columns.ts'
import { type Parts, wordAt } from './parts.ts'

interface RowProps {
  readonly parts: Parts
  readonly columns: readonly Column[]
  readonly units: ReadonlyMap<string, Prefixed>
  readonly at25: boolean
  readonly index: number
  readonly row: number
  readonly top: number
  readonly isCurrent: boolean
  readonly isChosen: boolean
  readonly editing: Editable | undefined
  /** What to keep of a cell that was changed; nothing: it stays as it was. */
  readonly onField: (row: number, field: Editable, text: string | undefined) => void
}

/**
 * One part. While the table is scrolled many are drawn in each frame, so a row is bare elements: the table around it
 * hears what is done to it, and finds by `data-index` and `data-field` where.
 */
export const Row = memo(function Row(p: RowProps) {
  const tag = p.parts.tags[p.row]!
  const state = p.isChosen ? ' chosen' : ''
  return (
    // biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: the grid has focus and keys
    <div
      id={`part-row-${p.index}`}
      data-index={p.index}
      role="row"
      className={p.isCurrent ? `parts-row current${state}` : `parts-row${state}`}
      aria-rowindex={p.index + 2}
      aria-selected={p.isChosen}
      style={{ transform: `translateY(${p.top}px)` }}
    >
      {/* biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: as above */}
      <span role="gridcell" className="cell-choose">
        <input type="checkbox" tabIndex={-1} aria-label={`Choose ${tag}`} checked={p.isChosen} readOnly />
      </span>
      {p.columns.map((c) => (
        // biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: as above
        <span
          key={c.id}
          role="gridcell"
          className={classOf(c)}
          {...(isEditable(c.id) ? { 'data-field': c.id, title: 'Double-click to change' } : undefined)}
        >
          {p.editing !== undefined && p.editing === c.id ? fieldOf(p, p.editing, tag) : contentOf(p, c, tag)}
        </span>
      ))}
    </div>
  )
})

const addressOf = (tag: string): string => `/parts/${encodeURIComponent(tag)}`

/** The status of a part; one that is put aside for a job says so, with the job behind it. */
const statusOf = (status: string, reserved: string) =>
  reserved === '' ? (
    status
  ) : (
    <span title={`${status}, reserved for ${reserved}`}>{status === 'kept' ? 'reserved' : `${status}, reserved`}</span>
  )

const classOf = (c: Column): string => (c.kind === 'value' ? 'cell n' : c.kind === 'tag' ? 'cell cell-tag' : 'cell')

function fieldOf({ parts, row, onField }: RowProps, field: Editable, tag: string) {
  return (
    <CellField
      field={field}
      tag={tag}
      value={wordAt(parts, field, row)}
      words={parts.words[field].words}
      onDone={(text) => onField(row, field, text)}
    />
  )
}

function contentOf({ parts, row, units, at25 }: RowProps, c: Column, tag: string) {
  switch (c.kind) {
    case 'tag':
      return (
        <a href={addressOf(tag)} tabIndex={-1}>
          {tag}
        </a>
      )
    case 'word': {
      const word = wordAt(parts, c.id, row)
      if (c.id === 'statuses') return statusOf(word, wordAt(parts, 'reserved', row))
      if (c.id !== 'verdicts') return word
      const state = wordAt(parts, 'states', row)
      if (state === 'short' || state === 'open') return <OutcomeWord of={state} />
      return word === '' ? '' : <OutcomeWord of={word as 'conforms'} />
    }
    case 'mark': {
      const count = c.id === 'notes' ? parts.notes[row]! : parts.photos[row]!
      return count === 0 ? '' : c.id === 'notes' ? 'note' : String(count)
    }
    case 'value': {
      const values = parts.symbols.get(c.id)!
      const value = at25 ? values.at25[row]! : values.value[row]!
      const [number, half] = inUnit(value, 2 * values.u[row]!, units.get(c.id)!)
      if (number === '') return null
      return (
        <>
          <span className="num">{number}</span>
          {half !== '' && <span className="pm"> ± {half}</span>}
        </>
      )
    }
  }
}
