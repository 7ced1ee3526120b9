import { useState } from 'react'

/** A choice that this browser remembers. */
export function useRemembered<T>(name: string, first: () => T): readonly [T, (value: T) => void] {
  const key = `germane/${name}`
  const [value, setValue] = useState<T>(() => {
    const text = window.localStorage.getItem(key)
    try {
      return text === null ? first() : (JSON.parse(text) as T)
    } catch {
      return first()
    }
  })
  const keep = (next: T): void => {
    window.localStorage.setItem(key, JSON.stringify(next))
    setValue(next)
  }
  return [value, keep]
}
