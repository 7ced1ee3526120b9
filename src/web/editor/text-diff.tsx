import { type DiffLine, diffLines } from './diff.ts'
import './text-diff.css'

interface Props {
  readonly older: string
  readonly newer: string
}

/** Lines shown around a change. */
const around = 1

interface Numbered extends DiffLine {
  readonly at: number
}

/** What changed, with a line of what stands around it. */
export function TextDiff({ older, newer }: Props) {
  const lines = diffLines(older, newer).map((l, at): Numbered => ({ ...l, at }))
  const near = lines.filter((l) =>
    lines.slice(Math.max(0, l.at - around), l.at + around + 1).some((n) => n.kind !== 'same'),
  )
  if (near.length === 0) return <p className="soft">Nothing changed.</p>
  return (
    <ul className="diff mono">
      {near.map((l, i) => (
        <li key={l.at} className={`diff-${l.kind}${i > 0 && near[i - 1]!.at !== l.at - 1 ? ' diff-gap' : ''}`}>
          <span className="diff-word">{words[l.kind]}</span>
          {l.text === '' ? ' ' : l.text}
        </li>
      ))}
    </ul>
  )
}

const words = { same: '', gone: 'was', new: 'now' } as const
