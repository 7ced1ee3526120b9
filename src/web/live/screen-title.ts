import { useEffect } from 'react'
import { announce } from './announce.tsx'

/** Names the screen in the window's title, and says it to those who listen. */
export function useScreenTitle(title: string): void {
  useEffect(() => {
    document.title = title === '' ? 'Germane' : `${title} · Germane`
    if (title !== '') announce(title)
  }, [title])
}
