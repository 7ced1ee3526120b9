import { Link } from '@tanstack/react-router'
import { type MouseEvent, memo } from 'react'
import { OutcomeWord } from '#web/typeset'
import { CellField, type Editable, isEditable } from './cell-field.tsx'
import { type Column, inUnit } from './columns.ts'
import { wordAt } from './parts.ts'
import type { TableProps } from './table.tsx'

interface RowProps extends TableProps {
  readonly index: number
  readonly row: number
  readonly top: number
  readonly isCurrent: boolean
  readonly isChosen: boolean
  readonly editing: Editable | undefined
  readonly onPress: (e: MouseEvent, index: number) => void
  readonly onOpenField: (row: number, field: Editable) => void
  readonly onCloseField: () => void
}

/** One part: drawn again only when what it shows changes. */
export const Row = memo(RowView, (a, b) =>
  (['parts', 'row', 'top', 'index', 'columns', 'units', 'at25', 'isCurrent', 'isChosen', 'editing'] as const).every(
    (k) => a[k] === b[k],
  ),
)

function RowView(p: RowProps) {
  const tag = p.parts.tags[p.row]!
  const classes = ['parts-row', p.isCurrent ? 'current' : '', p.isChosen ? 'chosen' : ''].join(' ')
  return (
    // biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive lint/a11y/useKeyWithClickEvents: the grid has focus and keys
    <div
      id={`part-row-${p.index}`}
      role="row"
      className={classes}
      aria-rowindex={p.index + 2}
      aria-selected={p.isChosen}
      style={{ transform: `translateY(${p.top}px)` }}
      onClick={(e) => p.onPress(e, p.index)}
    >
      {/* biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: as above */}
      <span role="gridcell" className="cell-choose">
        <input type="checkbox" tabIndex={-1} aria-label={`Choose ${tag}`} checked={p.isChosen} readOnly />
      </span>
      {p.columns.map((c) => (
        <Cell key={c.id} {...p} column={c} tag={tag} />
      ))}
    </div>
  )
}

function Cell(p: RowProps & { readonly column: Column; readonly tag: string }) {
  const { column: c, parts, row } = p
  if (c.kind === 'word' && isEditable(c.id)) {
    const field = c.id
    return (
      // biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: as above
      <span
        role="gridcell"
        className="cell editable"
        onDoubleClick={() => p.onOpenField(row, field)}
        title="Double-click to change"
      >
        {p.editing === field ? (
          <CellField
            field={field}
            tag={p.tag}
            value={wordAt(parts, field, row)}
            words={parts.words[field].words}
            onDone={(text) => {
              if (text !== undefined) p.onEdit(row, field, text)
              p.onCloseField()
            }}
          />
        ) : (
          wordAt(parts, field, row)
        )}
      </span>
    )
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements lint/a11y/useFocusableInteractive: as above
    <span role="gridcell" className={c.kind === 'value' ? 'cell n' : c.kind === 'tag' ? 'cell cell-tag' : 'cell'}>
      <Content {...p} />
    </span>
  )
}

function Content({
  column: c,
  parts,
  row,
  tag,
  units,
  at25,
}: RowProps & { readonly column: Column; readonly tag: string }) {
  switch (c.kind) {
    case 'tag':
      return (
        <Link to="/parts/$tag" params={{ tag }} tabIndex={-1} preload={false} onClick={(e) => e.stopPropagation()}>
          {tag}
        </Link>
      )
    case 'word': {
      const word = wordAt(parts, c.id, row)
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
