import { useRouter } from '@tanstack/react-router'
import { useEffect } from 'react'
import { whenIdle } from '#web/live'

/** Screens one goes to from any other. */
const screens = ['/drawer', '/testers', '/types', '/run', '/match', '/stage', '/jobs'] as const

/** So long the first screen has the way to the server to itself, ms. */
const pause = 1500

/** Fetches what the other screens are made of while nothing else is to be done, so that a link is followed at once. */
export function useAhead(isOpen: boolean): void {
  const router = useRouter()
  useEffect(() => {
    if (!isOpen) return
    let isGone = false
    const fetchAhead = async (): Promise<void> => {
      await new Promise((keep) => setTimeout(keep, pause))
      for (const to of screens) {
        await whenIdle()
        if (isGone) return
        await router.preloadRoute({ to })
      }
      await router.preloadRoute({ to: '/parts/$tag', params: { tag: '-' } })
    }
    // What cannot be fetched now is fetched when it is wanted, and said then.
    fetchAhead().catch(() => undefined)
    return () => {
      isGone = true
    }
  }, [router, isOpen])
}
