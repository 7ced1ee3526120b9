import { type ErrorComponentProps, Link } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import { useScreenTitle } from '#web/live'

/** While a screen is on its way. */
export function Waiting() {
  return (
    <div className="screen" aria-busy="true">
      <p className="soft">One moment …</p>
    </div>
  )
}

/** An address that leads nowhere. */
export const Nowhere = () => (
  <NotThere
    title="There is no such page"
    say="The address may be old or mistyped. Find anything with the field above."
  />
)

interface NotThereProps {
  /** What is missing: "No such job". */
  readonly title: string
  readonly say: string
  /** Where to look instead. */
  readonly children?: ReactNode
}

/** An address that names what there is not: what is missing, and where to look. */
export function NotThere({ title, say, children }: NotThereProps) {
  useScreenTitle(title)
  return (
    <div className="screen">
      <header>
        <h1>{title}</h1>
        <p className="lead">{say}</p>
      </header>
      <p className="actions">
        {children}
        <Link to="/" className="word">
          Go to the start
        </Link>
      </p>
    </div>
  )
}

/** A screen that has nothing to show before the first part is read: why, and where to go. */
export function NothingRead({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <div className="screen">
      <header>
        <h1>{title}</h1>
        <p className="lead">{children}</p>
      </header>
      <p className="actions">
        <Link to="/run" className="button first">
          Begin a run
        </Link>
        <Link to="/" className="word">
          Go to the start
        </Link>
      </p>
    </div>
  )
}

/** What went wrong, in a sentence, and what to do. */
export function Trouble({ error, reset }: ErrorComponentProps) {
  const sentences = sentencesOf(error)
  return (
    <div className="screen" role="alert">
      <header>
        <h1>This did not work</h1>
        {sentences.map((s) => (
          <p className="lead" key={s}>
            {s}
          </p>
        ))}
      </header>
      <p className="actions">
        <button type="button" className="button" onClick={reset}>
          Try again
        </button>
        <Link to="/" className="word">
          Go to the start
        </Link>
      </p>
    </div>
  )
}

/** A fault's message holds one sentence a line. */
const sentencesOf = (error: unknown): readonly string[] =>
  (error instanceof Error ? error.message : String(error)).split('\n')
