import { useEffect, useState } from 'react'
import { useShortcut } from '#web/keys'
import { undo, useConnected, useDone } from '#web/live'

/** What is true of the whole page: the server is gone, something was just done. */
export function Notices() {
  return (
    <>
      <ServerGone />
      <JustDone />
    </>
  )
}

/** How long the server may be silent before it is said, ms. */
const patience = 1500

function ServerGone() {
  const isConnected = useConnected()
  const [isLate, setLate] = useState(false)
  useEffect(() => {
    if (isConnected) return setLate(false)
    const wait = setTimeout(() => setLate(true), patience)
    return () => clearTimeout(wait)
  }, [isConnected])
  if (!isLate) return null
  return (
    <aside className="notice" aria-label="The server" aria-live="assertive">
      <p>
        <b>The server does not answer.</b> What you typed is kept on this page. Start it again with{' '}
        <code>germane serve</code>; the page goes on by itself.
      </p>
    </aside>
  )
}

function JustDone() {
  const done = useDone()
  const edit = done?.edit
  useShortcut({ keys: 'u', says: 'Undo what was done last.' }, () => undo(edit))
  if (done === undefined) return null
  return (
    <aside className="notice done" aria-label="Just done">
      <p>{done.say}</p>
      {edit !== undefined && (
        <button type="button" className="word" onClick={() => undo(edit)}>
          Undo
        </button>
      )}
    </aside>
  )
}
