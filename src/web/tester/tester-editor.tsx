import { useNavigate } from '@tanstack/react-router'
import { useDeferredValue, useMemo, useState } from 'react'
import { ApiFault, type SaidFault, type TesterDetail } from '#api'
import { readTester, type Tester, type TesterRead, testerExample } from '#core/tester'
import { FromBefore, notesOf, sayUnsaved, TextEditor } from '#web/editor'
import { api, queryClient, queryKeys, sayDone, useScreenTitle, useUnsaved } from '#web/live'
import { ScaleFace } from './scale-face.tsx'
import { gainText, kindWords, rangesText } from './tester-words.ts'

interface Props {
  readonly detail: TesterDetail
}

/** Edits the description of a tester; saving makes a version. */
export function TesterEditor({ detail }: Props) {
  useScreenTitle(`Edit ${detail.tester.name}`)
  return (
    <DescriptionEditor
      heading={detail.tester.name}
      lead={
        detail.from === 'book'
          ? 'Saving makes a new version. Runs keep the version they were read with, so nothing old changes.'
          : 'This is a sample. What you save becomes your own; give it an id and a name of its own, or keep these.'
      }
      id={detail.tester.id}
      start={detail.description}
    />
  )
}

/** A tester of one's own, from a filled example. */
export function NewTester() {
  useScreenTitle('Describe your tester')
  return (
    <DescriptionEditor
      heading="Describe your tester"
      lead="Write over this example, with the manual and the printed scales at hand. What is wrong is said beside its line as you type."
      start={testerExample}
    />
  )
}

interface EditorProps {
  /** Of the tester that is edited; left out for a new one. */
  readonly id?: string
  readonly heading: string
  readonly lead: string
  readonly start: string
}

function DescriptionEditor({ id: edited, heading, lead, start }: EditorProps) {
  const navigate = useNavigate()
  const unsaved = useUnsaved(edited === undefined ? 'new-tester' : `tester/${edited}`, start)
  const { text, setText } = unsaved
  const [refused, setRefused] = useState<readonly SaidFault[]>([])
  const later = useDeferredValue(text)
  const read = useMemo(() => readTester(later), [later])
  const notes = useMemo(() => notesOf(read.ok ? refused : read.faults), [read, refused])
  const open = (id: string): Promise<void> => navigate({ to: '/testers/$id', params: { id } })
  const save = async (): Promise<void> => {
    const saved = await api.saveTester(text).catch((error: unknown) => {
      if (!(error instanceof ApiFault)) throw error
      setRefused(error.faults)
      return undefined
    })
    if (saved === undefined) return
    await queryClient.invalidateQueries({ queryKey: queryKeys.testers })
    const say = saved.isNew
      ? `Kept ${saved.name} as version ${saved.version}.`
      : `Nothing had changed: version ${saved.version} stays.`
    unsaved.forget()
    sayDone({ say, ...(saved.edit === undefined ? {} : { edit: saved.edit }) })
    await open(saved.name)
  }
  const leave = (): void => {
    if (text !== start) sayUnsaved()
    void (edited === undefined ? navigate({ to: '/testers' }) : open(edited))
  }
  return (
    <div className="screen">
      <header>
        <h1>{heading}</h1>
        <p className="lead">{lead}</p>
      </header>
      <FromBefore unsaved={unsaved} start={start} />
      <TextEditor
        label="Description of the tester"
        text={text}
        notes={notes}
        hint="Nothing to mend. Each value takes its unit: 100 uA, 1.1 kohm, 2 %. Names in quotes are as printed on the tester; tests refer to ranges and supplies by them."
        onChange={(t) => {
          setText(t)
          setRefused([])
        }}
      />
      <div className="editor-foot">
        <Understood read={read} />
        <div className="actions">
          <button type="button" className="button first" disabled={!read.ok} onClick={() => void save()}>
            Save
          </button>
          <button type="button" className="button" onClick={leave}>
            Leave
          </button>
        </div>
      </div>
      {read.ok && <AsUnderstood tester={read.tester} />}
    </div>
  )
}

function Understood({ read }: { readonly read: TesterRead }) {
  if (!read.ok) {
    const n = read.faults.length
    return <p role="status">{n === 1 ? 'One thing to mend.' : `${n} things to mend.`}</p>
  }
  const t = read.tester
  return (
    <p role="status">
      Understood: <b>{t.name}</b>, {kindWords[t.kind].toLowerCase()}; {rangesText(t)}. Gain:{' '}
      {gainText(t.gain).replace(/^./, (c) => c.toLowerCase())}
    </p>
  )
}

function AsUnderstood({ tester }: { readonly tester: Tester }) {
  return (
    <section className="spread">
      <h2>
        Ranges <span className="soft">as understood</span>
      </h2>
      <div className="matter faces">
        {tester.ranges.map((r) => (
          <ScaleFace key={r.id} tester={tester} range={r} />
        ))}
      </div>
    </section>
  )
}
