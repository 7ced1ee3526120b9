import { useNavigate } from '@tanstack/react-router'
import { useDeferredValue, useMemo, useState } from 'react'
import { ApiFault, type SaidFault, type TypeDetail } from '#api'
import { type PartType, readPartTypes } from '#core/device'
import { type Fault, FaultError } from '#core/fault'
import { FromBefore, notesOf, sayUnsaved, TextEditor } from '#web/editor'
import { api, queryClient, queryKeys, sayDone, useScreenTitle, useUnsaved } from '#web/live'
import { openText } from './form-open.ts'
import { kindInFull } from './glance.ts'
import { LimitsTable } from './limits-table.tsx'
import { TypeForm } from './type-form.tsx'

interface Props {
  readonly detail: TypeDetail
}

/** Edits the record of a type; one of the catalog becomes the user's own. */
export function TypeEditor({ detail }: Props) {
  const { type } = detail.partType
  useScreenTitle(`Edit ${type}`)
  return (
    <TypeTextEditor
      heading={`Edit ${type}`}
      lead={
        detail.from === 'book'
          ? 'Saving makes a new version; runs keep the one they were judged by.'
          : 'The catalog keeps its record; yours goes before it. You can undo it at any time.'
      }
      name={type}
      start={detail.text}
    />
  )
}

type Read = { readonly types: readonly PartType[] } | { readonly faults: readonly Fault[] }

function readText(text: string): Read {
  try {
    return { types: readPartTypes(text) }
  } catch (error) {
    if (error instanceof FaultError) return { faults: error.faults }
    throw error
  }
}

interface TextProps {
  /** Number of the type that is edited; left out for a new one. */
  readonly name?: string
  readonly heading: string
  readonly lead: string
  readonly start: string
}

/** The text of one or more types, as a form or as it is; read as one types it. */
export function TypeTextEditor({ name, heading, lead, start }: TextProps) {
  const navigate = useNavigate()
  const unsaved = useUnsaved(name === undefined ? 'new-type' : `type/${name}`, start)
  const { text, setText } = unsaved
  const [refused, setRefused] = useState<readonly SaidFault[]>([])
  const later = useDeferredValue(text)
  const read = useMemo(() => readText(later), [later])
  const faults = 'faults' in read ? read.faults : refused
  const notes = useMemo(() => notesOf(faults), [faults])
  const first = 'types' in read ? read.types[0] : undefined
  const [isForm, setForm] = useState(true)
  const form = useMemo(() => (isForm ? openText(text) : undefined), [text, isForm])
  const change = (t: string): void => {
    setText(t)
    setRefused([])
  }
  const open = (type: string | undefined): Promise<void> =>
    type === undefined ? navigate({ to: '/types' }) : navigate({ to: '/types/$type', params: { type } })
  const leave = (): void => {
    if (text !== start) sayUnsaved()
    void open(name)
  }
  const save = async (): Promise<void> => {
    const saved = await api.saveType(text).catch((error: unknown) => {
      if (!(error instanceof ApiFault)) throw error
      setRefused(error.faults)
      return []
    })
    const one = saved[0]
    if (one === undefined) return
    await queryClient.invalidateQueries({ queryKey: queryKeys.types })
    const say = one.isNew ? `Kept ${one.name} as version ${one.version}.` : `${one.name} was kept already.`
    unsaved.forget()
    sayDone({ say, ...(one.edit === undefined ? {} : { edit: one.edit }) })
    await open(one.name)
  }
  return (
    <div className="screen">
      <header>
        <h1>{heading}</h1>
        <p className="lead">{lead}</p>
      </header>
      <FromBefore unsaved={unsaved} start={start} />
      <ViewChoice isForm={isForm} onForm={setForm} />
      {form !== undefined && <TypeForm open={form} notes={notes} onText={change} />}
      {isForm && form === undefined && (
        <p className="said">A form shows one type at a time, of a text that can be read. This one is edited as text.</p>
      )}
      {form === undefined && (
        <TextEditor
          label="Part type as text"
          text={text}
          notes={notes}
          hint="Nothing to mend. Values take their unit: 12 mA, 5 uA, 25 degC; bare numbers are SI. Each limit holds at its conditions alone, so write them down with it."
          onChange={change}
        />
      )}
      <div className="editor-foot">
        <Understood read={read} />
        <div className="actions">
          <button type="button" className="button first" disabled={first === undefined} onClick={() => void save()}>
            Save
          </button>
          <button type="button" className="button" onClick={leave}>
            Leave
          </button>
        </div>
      </div>
      {first !== undefined && first.limits.length > 0 && (
        <section className="spread">
          <h2>
            Limits <span className="soft">as understood</span>
          </h2>
          <div className="matter">
            <LimitsTable limits={first.limits} />
          </div>
        </section>
      )}
    </div>
  )
}

interface ViewProps {
  readonly isForm: boolean
  readonly onForm: (isForm: boolean) => void
}

/** Two ways to write the same record. */
function ViewChoice({ isForm, onForm }: ViewProps) {
  return (
    <fieldset className="choice editor-view">
      <legend className="vh">Write it</legend>
      <label>
        <input type="radio" name="view" checked={isForm} onChange={() => onForm(true)} />
        in a form
      </label>
      <label>
        <input type="radio" name="view" checked={!isForm} onChange={() => onForm(false)} />
        as text
      </label>
    </fieldset>
  )
}

function Understood({ read }: { readonly read: Read }) {
  if ('faults' in read) {
    const n = read.faults.length
    return <p role="status">{n === 1 ? 'One thing to mend.' : `${n} things to mend.`}</p>
  }
  return (
    <p role="status">
      Understood:{' '}
      {read.types.map((t, i) => (
        <span key={t.type}>
          {i > 0 && '; '}
          <b>{t.type}</b>, {kindInFull(t).replace(/^./, (c) => c.toLowerCase())}, {t.limits.length}{' '}
          {t.limits.length === 1 ? 'limit' : 'limits'}
        </span>
      ))}
      .
    </p>
  )
}
