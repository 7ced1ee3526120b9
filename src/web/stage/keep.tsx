import { useEffect, useMemo, useState } from 'react'
import { notesOf, TextEditor } from '#web/editor'
import { FileButton } from '#web/field'
import { announce } from '#web/live'
import { type Draft, draftOfText, draftText } from './draft.ts'

interface Props {
  readonly draft: Draft
  readonly onDraft: (draft: Draft) => void
}

/** The position as text: changed here, copied, saved to a file. */
export function Keep({ draft, onDraft }: Props) {
  const made = useMemo(() => draftText(draft), [draft])
  const [text, setText] = useState(made)
  const [said, setSaid] = useState('')
  const read = useMemo(() => draftOfText(text), [text])
  // the text follows the form, and not the other way round while one types
  useEffect(() => {
    setText((before) => {
      const now = draftOfText(before)
      return now.ok && draftText(now.draft) === made ? before : made
    })
  }, [made])
  const change = (next: string): void => {
    setText(next)
    const found = draftOfText(next)
    if (found.ok) onDraft(found.draft)
  }
  const copy = (): void => {
    const say = (words: string): void => {
      setSaid(words)
      announce(words)
    }
    navigator.clipboard.writeText(text).then(
      () => say('The position is copied.'),
      () => say('The browser did not let it be copied: mark the text and copy it.'),
    )
  }
  return (
    <>
      <p className="actions">
        <button type="button" className="button" onClick={copy}>
          Copy as text
        </button>
        <button type="button" className="button" onClick={() => save(text)}>
          Save as a file
        </button>
        <span className="soft small">{said}</span>
      </p>
      <details className="stage-text">
        <summary>Change it as text</summary>
        <TextEditor
          label="The position as text"
          text={text}
          onChange={change}
          notes={read.ok ? [] : notesOf(read.faults)}
          hint="germane stage reads the same text."
        />
      </details>
    </>
  )
}

/** Lets the browser keep a text as a file. */
function save(text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }))
  const link = document.createElement('a')
  link.href = url
  link.download = 'position.yaml'
  link.click()
  URL.revokeObjectURL(url)
}

interface OpenProps {
  readonly onDraft: (draft: Draft) => void
  readonly onFaults: (faults: readonly string[]) => void
}

/** Opens a position from a file. */
export function OpenFile({ onDraft, onFaults }: OpenProps) {
  const open = async (file: File): Promise<void> => {
    const found = draftOfText(await file.text())
    if (found.ok) {
      onFaults([])
      onDraft(found.draft)
      announce(`${file.name} is open.`)
    } else onFaults(notesOf(found.faults).map((n) => `${file.name}, line ${n.line}: ${n.say}`))
  }
  return (
    <p className="stage-open">
      <FileButton says="Open a position" accept=".yaml,.yml,.json,.txt" onFile={(file) => void open(file)} />
    </p>
  )
}
