import type { Diagnosis, Suspect, TesterCheck } from '#core/upkeep'
import { bookText, Prose } from '#web/typeset'
import { signedPercent } from './found-typed.ts'

interface Props {
  readonly found: Diagnosis
  /** Faults that show at no check. */
  readonly hidden: readonly string[]
}

/** Suspects that are shown: those with some chance, and no more than a person can go through. */
const shown = { chance: 0.01, most: 10 } as const

/** A sound tester is worth a word where it reproduces what was seen at least so well, beside the best suspect. */
const soundBeyond = 0.3

/** The faults that reproduce what was seen, the likeliest first, and what to look at next. */
export function Suspects({ found: d, hidden }: Props) {
  const all = d.suspects.filter((s, i) => i === 0 || s.chance >= shown.chance).slice(0, shown.most)
  const tied = d.suspects.filter((s) => s.place === 1).length
  return (
    <>
      {d.isPoor && (
        <p className="said bad">
          No single fault shows all this: look again, or there are two, or one that no description holds.
        </p>
      )}
      {d.sound > soundBeyond && (
        <p className="said">A sound tester may show this too: nothing speaks clearly for a fault.</p>
      )}
      <ol className="suspects">
        {all.map((s) => (
          <SuspectLine key={s.fault.id} of={s} isTied={d.suspects.some((o) => o !== s && o.place === s.place)} />
        ))}
      </ol>
      {tied > 1 && <p className="soft">The first {tied} are a tie: what was seen cannot tell them apart.</p>}
      {d.next !== undefined && <Next next={d.next} />}
      <p className="soft small">
        Chances are among single faults, each as likely as the next before anything was seen.
        {hidden.length > 0 && ` These show at no check and must be measured: ${bookText(hidden.join(', '))}.`}
      </p>
    </>
  )
}

function SuspectLine({ of: s, isTied }: { readonly of: Suspect; readonly isTied: boolean }) {
  const percent = 100 * s.chance
  return (
    <li>
      <span className="soft suspect-place">
        {s.place}
        {isTied && ' tie'}
      </span>
      <span className="suspect-chance">
        <b>{percent >= 10 ? percent.toFixed(0) : percent.toFixed(1)}</b>
        <span className="unit">{'\u2009%'}</span>
      </span>
      <span>
        <Prose text={s.fault.say(s.size)} />
        <i className="suspect-bar" aria-hidden="true" style={{ width: `${percent}%` }} />
      </span>
    </li>
  )
}

/** What would tell the first suspects apart. */
function Next({ next: { check, shows } }: { readonly next: NonNullable<Diagnosis['next']> }) {
  const would = new Map<string, string[]>()
  for (const { fault, value, isLoose } of shows) {
    const text = `${valueText(check, value)}${isLoose ? ', unsteady' : ''}`
    would.set(text, [...(would.get(text) ?? []), fault.id])
  }
  return (
    <div className="suspects-next">
      <h3>Look next at {bookText(check.id)}</h3>
      <p>
        <Prose text={check.say} />
      </p>
      <dl className="found-mends">
        {[...would].map(([text, faults]) => (
          <div key={text}>
            <dt>{text}</dt>
            <dd>{bookText(faults.join(', '))}</dd>
          </div>
        ))}
      </dl>
    </div>
  )
}

/** What a check would show, as one says it. */
function valueText(c: TesterCheck, value: number): string {
  if (c.seen === 'divisions') return `${value > 0 ? '+' : ''}${Number(value.toFixed(1))} div`.replace('-', '\u2212')
  if (value >= c.stopAt) return 'pegged'
  return value < 0.05 ? 'none' : Math.abs(value - 1) < 5e-4 ? 'right' : signedPercent(value - 1)
}
