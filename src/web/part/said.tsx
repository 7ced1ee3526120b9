import { type FormEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react'
import { type PartChanges, type PartEntry, partStatusWords } from '#api'
import { api, queryClient, queryKeys, sayDone } from '#web/live'

type Field = Exclude<keyof PartChanges, 'type'>

const names: Readonly<Record<Field, string>> = {
  place: 'Place',
  status: 'Status',
  usedIn: 'Used in',
  lot: 'Lot',
  note: 'Note',
}

/** What the person says of a part. A field is kept when one leaves it or presses Enter, and can be undone. */
export function SaidOf({ part }: { readonly part: PartEntry }) {
  const keep = async (field: Field, text: string): Promise<void> => {
    if (text === (part[field] ?? '')) return
    const { edit } = await api.changeParts([part.tag], { [field]: text })
    await queryClient.invalidateQueries({ queryKey: queryKeys.part(part.tag) })
    sayDone({
      say: `${names[field]} of ${part.tag} ${text === '' ? 'taken away' : 'changed'}.`,
      ...(edit === undefined ? {} : { edit }),
    })
  }
  return (
    <div className="said-of">
      <Status part={part} onKeep={keep} />
      <Line field="place" part={part} onKeep={keep} hint="drawer 3" />
      <Line field="usedIn" part={part} onKeep={keep} hint="amplifier board, Q1" />
      <Line field="lot" part={part} onKeep={keep} hint="" />
      <Note part={part} onKeep={keep} />
    </div>
  )
}

interface FieldProps {
  readonly part: PartEntry
  readonly onKeep: (field: Field, text: string) => Promise<void>
}

/** What stands in a field; another window's change comes in while one is not in it. */
function useDraft(kept: string, keep: (text: string) => Promise<void>) {
  const [text, setText] = useState(kept)
  const [fault, setFault] = useState<string>()
  const isIn = useRef(false)
  useEffect(() => {
    if (!isIn.current) setText(kept)
  }, [kept])
  const done = (): void => {
    setFault(undefined)
    keep(text.trim()).catch((e: unknown) => setFault(e instanceof Error ? e.message : String(e)))
  }
  return {
    text,
    fault,
    setText,
    props: {
      onFocus: () => {
        isIn.current = true
      },
      onBlur: () => {
        isIn.current = false
        done()
      },
    },
    leave: () => setText(kept),
  }
}

function Line({
  field,
  part,
  onKeep,
  hint,
}: FieldProps & { readonly field: 'place' | 'usedIn' | 'lot'; readonly hint: string }) {
  const draft = useDraft(part[field] ?? '', (text) => onKeep(field, text))
  const onKey = (e: KeyboardEvent<HTMLInputElement>): void => {
    if (e.key === 'Enter') e.currentTarget.blur()
    if (e.key === 'Escape') draft.leave()
  }
  return (
    <label className="field">
      <span className="field-label">{names[field]}</span>
      <input
        className="input"
        autoComplete="off"
        maxLength={200}
        placeholder={hint}
        value={draft.text}
        onChange={(e) => draft.setText(e.target.value)}
        onKeyDown={onKey}
        {...draft.props}
      />
      {draft.fault !== undefined && <span className="field-fault">{draft.fault}</span>}
    </label>
  )
}

function Note({ part, onKeep }: FieldProps) {
  const draft = useDraft(part.note ?? '', (text) => onKeep('note', text))
  return (
    <label className="field said-note">
      <span className="field-label">Note</span>
      <textarea
        className="area"
        rows={Math.min(8, Math.max(2, draft.text.split('\n').length))}
        maxLength={20_000}
        placeholder="What you saw, heard or smelled"
        value={draft.text}
        onChange={(e) => draft.setText(e.target.value)}
        {...draft.props}
      />
      {draft.fault !== undefined && <span className="field-fault">{draft.fault}</span>}
    </label>
  )
}

function Status({ part, onKeep }: FieldProps) {
  const [fault, setFault] = useState<string>()
  const choose = (e: FormEvent<HTMLSelectElement>): void => {
    setFault(undefined)
    onKeep('status', e.currentTarget.value).catch((x: unknown) => setFault(x instanceof Error ? x.message : String(x)))
  }
  return (
    <label className="field">
      <span className="field-label">Status</span>
      <select className="select" value={part.status} onChange={choose}>
        {partStatusWords.map((w) => (
          <option key={w}>{w}</option>
        ))}
      </select>
      {fault !== undefined && <span className="field-fault">{fault}</span>}
    </label>
  )
}
