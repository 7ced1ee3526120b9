import { type RefObject, useId, useLayoutEffect, useRef, useState } from 'react'
import type { LineNote } from './notes.ts'
import './text-editor.css'

interface Props {
  /** What the text is, for its label: "Description". */
  readonly label: string
  readonly text: string
  readonly onChange: (text: string) => void
  readonly notes: readonly LineNote[]
  /** What stands in the margin while nothing is wrong. */
  readonly hint: string
}

/**
 * A text with numbered lines; what is wrong stands in the margin beside its line, as one types. On a narrow page the
 * notes stand below, and lead back to their lines.
 */
export function TextEditor({ label, text, onChange, notes, hint }: Props) {
  const area = useRef<HTMLTextAreaElement>(null)
  const id = useId()
  const lines = text.split('\n').length
  const marked = new Set(notes.map((n) => n.line))
  return (
    <div className="editor">
      <label className="vh" htmlFor={id}>
        {label}
      </label>
      <div className="editor-text">
        <div className="editor-lines" aria-hidden="true">
          {Array.from({ length: lines }, (_, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: the lines are their numbers
            <span key={i} className={marked.has(i + 1) ? 'bad' : undefined}>
              {i + 1}
            </span>
          ))}
        </div>
        <textarea
          ref={area}
          id={id}
          className="editor-area"
          value={text}
          rows={lines}
          wrap="off"
          spellCheck={false}
          autoCapitalize="off"
          autoCorrect="off"
          aria-invalid={notes.length > 0}
          aria-describedby={`${id}-notes`}
          onChange={(e) => onChange(e.currentTarget.value)}
        />
      </div>
      <div className="editor-margin">
        {notes.length === 0 && <p className="editor-hint soft">{hint}</p>}
        <Notes id={`${id}-notes`} notes={notes} area={area} />
      </div>
    </div>
  )
}

interface NotesProps {
  readonly id: string
  readonly notes: readonly LineNote[]
  readonly area: RefObject<HTMLTextAreaElement | null>
}

/** Puts the caret on a line. */
function goTo(area: HTMLTextAreaElement | null, line: number): void {
  if (area === null) return
  const before = area.value
    .split('\n')
    .slice(0, line - 1)
    .join('\n')
  const at = line === 1 ? 0 : before.length + 1
  const end = area.value.indexOf('\n', at)
  area.focus()
  area.setSelectionRange(at, end < 0 ? area.value.length : end)
}

function Notes({ id, notes, area }: NotesProps) {
  const list = useRef<HTMLOListElement>(null)
  const tops = useTops(list, notes, area)
  return (
    <ol id={id} ref={list} className="editor-notes">
      {notes.map((n, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: notes have no name, and are made anew with each text
        <li key={i} style={{ top: tops[i] }}>
          <button type="button" onClick={() => goTo(area.current, n.line)}>
            <b>Line {n.line}</b>
            {n.field !== undefined && <span className="mono">{n.field}</span>}
          </button>
          <span className="editor-say">{n.say}</span>
        </li>
      ))}
    </ol>
  )
}

/** Where each note stands: beside its line, or below the note before it. */
function useTops(
  list: RefObject<HTMLOListElement | null>,
  notes: readonly LineNote[],
  area: RefObject<HTMLTextAreaElement | null>,
): readonly number[] {
  const [tops, setTops] = useState<readonly number[]>([])
  useLayoutEffect(() => {
    const text = area.current
    if (list.current === null || text === null) return
    const style = getComputedStyle(text)
    const lineHeight = Number.parseFloat(style.lineHeight)
    const start = Number.parseFloat(style.paddingTop)
    let free = 0
    const placed = [...list.current.children].map((child, i) => {
      const top = Math.max(free, start + ((notes[i]?.line ?? 1) - 1) * lineHeight)
      free = top + (child as HTMLElement).offsetHeight + 10
      return top
    })
    setTops(placed)
  }, [list, notes, area])
  return tops
}
