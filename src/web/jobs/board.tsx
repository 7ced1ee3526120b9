import { Link } from '@tanstack/react-router'
import { type DragEvent, useEffect, useRef, useState } from 'react'
import type { JobDetail, JobPositionEntry } from '#api'
import { type BoardColumn, boardColumns, movedTo } from '#core/job'
import { keepPosition, useTried } from './edits.ts'
import { columnNames, countingPart, WordShown } from './words.tsx'

interface Props {
  readonly job: JobDetail['job']
  readonly positions: readonly JobPositionEntry[]
  /** The position that is looked at. */
  readonly chosen: string | undefined
}

/** Kind of what is dragged, so that nothing else can be dropped here. */
const dragged = 'application/x-germane-position'

/** The positions of a job in four columns. A position is moved by its words, or dragged to another column. */
export function Board({ job, positions, chosen }: Props) {
  const { fault, tried } = useTried()
  const [over, setOver] = useState<BoardColumn>()
  const follow = useFocusOn()
  const move = (ref: string, column: BoardColumn): void => {
    const one = positions.find((p) => p.ref === ref)
    if (one === undefined || one.column === column) return
    const say = `${ref} moved to ${columnNames[column].toLowerCase()}.`
    tried(async () => {
      await keepPosition(job.id, ref, say, movedTo(column))
      follow(ref)
    })
  }
  const onDrop = (column: BoardColumn) => (e: DragEvent) => {
    e.preventDefault()
    setOver(undefined)
    move(e.dataTransfer.getData(dragged), column)
  }
  return (
    <>
      <div className="board">
        {boardColumns.map((column) => {
          const own = positions.filter((one) => one.column === column)
          return (
            <section
              key={column}
              className={over === column ? 'board-column is-over' : 'board-column'}
              aria-label={columnNames[column]}
              onDragOver={(e) => {
                if (!e.dataTransfer.types.includes(dragged)) return
                e.preventDefault()
                setOver(column)
              }}
              onDragLeave={() => setOver(undefined)}
              onDrop={onDrop(column)}
            >
              <h2>
                {columnNames[column]} <span className="soft">{own.length}</span>
              </h2>
              <ul>
                {own.map((one) => (
                  <Item key={one.ref} position={one} isChosen={one.ref === chosen} onMove={move} />
                ))}
              </ul>
            </section>
          )
        })}
      </div>
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </>
  )
}

const linkId = (ref: string): string => `position-${encodeURIComponent(ref)}`

/** Brings the focus to a position after it was moved, since it then stands elsewhere. */
function useFocusOn(): (ref: string) => void {
  const wanted = useRef<string>(undefined)
  const [, again] = useState(0)
  useEffect(() => {
    if (wanted.current === undefined) return
    document.getElementById(linkId(wanted.current))?.focus()
    wanted.current = undefined
  })
  return (ref) => {
    wanted.current = ref
    again((n) => n + 1)
  }
}

interface ItemProps {
  readonly position: JobPositionEntry
  readonly isChosen: boolean
  readonly onMove: (ref: string, column: BoardColumn) => void
}

function Item({ position, isChosen, onMove }: ItemProps) {
  const { ref, role, type, column } = position
  const part = countingPart(position)
  return (
    <li
      className="board-item"
      draggable
      onDragStart={(e) => {
        e.dataTransfer.setData(dragged, ref)
        e.dataTransfer.effectAllowed = 'move'
      }}
    >
      <p>
        <Link
          id={linkId(ref)}
          to="."
          search={{ ref }}
          resetScroll={false}
          className="board-ref"
          aria-current={isChosen ? 'true' : undefined}
        >
          <bdi>{ref}</bdi>
        </Link>{' '}
        <span className="soft">{[type, role].filter(Boolean).join(', ')}</span>
      </p>
      {part !== undefined && (
        <p className="small">
          <bdi>{part.tag}</bdi>{' '}
          {part.verdict === undefined ? (
            <span className="soft">{part.state === 'short' ? 'shorted' : part.as}</span>
          ) : (
            <WordShown word={part.verdict.word} />
          )}
        </p>
      )}
      <p className="board-moves">
        {boardColumns
          .filter((other) => other !== column)
          .map((other) => (
            <button
              key={other}
              type="button"
              className="word"
              aria-label={`Move ${ref} to ${columnNames[other].toLowerCase()}`}
              onClick={() => onMove(ref, other)}
            >
              {columnNames[other]}
            </button>
          ))}
      </p>
    </li>
  )
}
