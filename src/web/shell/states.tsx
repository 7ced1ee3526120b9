import { type ErrorComponentProps, Link } from '@tanstack/react-router'
import type { ReactNode } from 'react'

/** While a screen is on its way. */
export function Waiting() {
  return (
    <div className="screen" aria-busy="true">
      <p className="soft">One moment …</p>
    </div>
  )
}

/** An address that leads nowhere. */
export function Nowhere() {
  return (
    <div className="screen">
      <header>
        <h1>There is no such page</h1>
        <p className="lead">
          The address may be old or mistyped. Go to the <Link to="/">start</Link>, or find anything with the field
          above.
        </p>
      </header>
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
        <Link to="/">Go to the start</Link>
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
        <Link to="/">Go to the start</Link>
      </p>
    </div>
  )
}

/** A fault's message holds one sentence a line. */
const sentencesOf = (error: unknown): readonly string[] =>
  (error instanceof Error ? error.message : String(error)).split('\n')
