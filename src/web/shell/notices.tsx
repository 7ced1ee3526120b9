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
  const [trouble, setTrouble] = useState('')
  const edit = done?.edit
  const takeBack = (): void => {
    undo(edit).then(
      () => setTrouble(''),
      (error: Error) => setTrouble(error.message),
    )
  }
  useShortcut({ keys: 'u', says: 'Undo what was done last.' }, takeBack)
  if (trouble !== '')
    return (
      <aside className="notice done" aria-label="What went wrong" aria-live="assertive">
        <p>{trouble}</p>
        <button type="button" className="word" onClick={() => setTrouble('')}>
          Close
        </button>
      </aside>
    )
  if (done === undefined) return null
  return (
    <aside className="notice done" aria-label="Just done">
      <p>{done.say}</p>
      {edit !== undefined && (
        <button type="button" className="word" onClick={takeBack}>
          Undo
        </button>
      )}
    </aside>
  )
}
