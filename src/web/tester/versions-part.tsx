import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { TesterDetail } from '#api'
import { TextDiff } from '#web/editor'
import { testerQuery } from '#web/live'
import { whenText } from '#web/typeset'

/** Every version of a description, and what each one changed. */
export function VersionsPart({ detail }: { readonly detail: TesterDetail }) {
  if (detail.versions.length === 0) return null
  return (
    <section className="spread">
      <h2>
        Versions <span className="soft">runs keep theirs</span>
      </h2>
      <ul className="matter versions">
        {detail.versions.map((v, i) => (
          <Version key={v.version} id={detail.tester.id} version={v} before={detail.versions[i + 1]?.version} />
        ))}
      </ul>
    </section>
  )
}

interface VersionProps {
  readonly id: string
  readonly version: TesterDetail['versions'][number]
  readonly before: number | undefined
}

function Version({ id, version: v, before }: VersionProps) {
  const [isOpen, setOpen] = useState(false)
  return (
    <li>
      <span>
        <b>Version {v.version}</b> <span className="soft">{whenText(v.at)}</span>
        <span className="soft">{v.runs === 0 ? '' : v.runs === 1 ? ', 1 run' : `, ${v.runs} runs`}</span>
      </span>
      {before === undefined ? (
        <span className="soft">the first</span>
      ) : (
        <button type="button" className="word" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          What changed
        </button>
      )}
      {isOpen && before !== undefined && <Changed id={id} older={before} newer={v.version} />}
    </li>
  )
}

interface ChangedProps {
  readonly id: string
  readonly older: number
  readonly newer: number
}

function Changed({ id, older, newer }: ChangedProps) {
  const a = useQuery(testerQuery(id, older))
  const b = useQuery(testerQuery(id, newer))
  if (a.data === undefined || b.data === undefined) return <p className="soft">One moment …</p>
  return (
    <div className="versions-diff">
      <TextDiff older={a.data.description} newer={b.data.description} />
    </div>
  )
}
