import { type Identity, type NextTest, ruledOutSentences } from '#core/identify'
import { Prose } from '#web/typeset'
import { withSigns } from './bench.ts'

interface NextProps {
  readonly identity: Identity
  /** Something was read: what to expect depends on it. */
  readonly isTold: boolean
  readonly onNext: (next: NextTest) => void
}

/** The test that tells most, with a press to choose its leads. */
export function Next({ identity, isTold, onNext }: NextProps) {
  const { next, contradiction, hypotheses } = identity
  if (contradiction !== undefined) return null
  if (next === undefined)
    return (
      <p className="soft">
        {(hypotheses[0]?.probability ?? 0) > 0.9
          ? 'Sure enough: no further test is needed.'
          : 'No other test between two leads tells more.'}
      </p>
    )
  return (
    <>
      <p>
        <Prose text={next.say} />
      </p>
      {next.caution !== undefined && <p className="identify-caution">{next.caution}</p>}
      <p className="actions">
        <button type="button" className="button" onClick={() => onNext(next)}>
          Choose these leads <kbd>n</kbd>
        </button>
      </p>
      {isTold && (
        <dl className="identify-expect">
          {next.expected.map((e) => (
            <div key={e.what}>
              <dt>
                <Prose text={e.shows} />
              </dt>
              <dd>if it is a {e.what}</dd>
            </div>
          ))}
        </dl>
      )}
    </>
  )
}

/** Why, what is ruled out and by which reading, and what cannot be told apart. */
export function Why({ identity }: { readonly identity: Identity }) {
  return (
    <>
      <Sentences title="Why" all={identity.evidence} />
      <Sentences title="Ruled out" all={ruledOutSentences(identity.ruledOut)} />
      <Sentences title="Not told apart" all={identity.cannotTell} />
    </>
  )
}

function Sentences({ title, all }: { readonly title: string; readonly all: readonly string[] }) {
  if (all.length === 0) return null
  return (
    <section className="spread">
      <h2>{title}</h2>
      <ul className="matter identify-sentences">
        {all.map((s) => (
          <li key={s}>
            <Prose text={withSigns(s)} />
          </li>
        ))}
      </ul>
    </section>
  )
}
