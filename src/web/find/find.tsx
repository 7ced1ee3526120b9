import { useRef } from 'react'
import { useShortcut } from '#web/keys'

export function Find() {
  const field = useRef<HTMLInputElement>(null)
  useShortcut({ keys: '/', says: 'Find anything: a tag, a type, a tester, a note.' }, () => field.current?.focus())
  return <input ref={field} type="search" className="input" placeholder="Find anything" aria-label="Find anything" />
}
