import { useEffect } from 'react'
import { announce } from './announce.tsx'

/** Names the screen in the window's title, and says it to those who listen; without a title another screen names itself. */
export function useScreenTitle(title: string | undefined): void {
  useEffect(() => {
    if (title === undefined) return
    document.title = title === '' ? 'Germane' : `${title} · Germane`
    if (title !== '') announce(title)
  }, [title])
}
