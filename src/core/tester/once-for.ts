/** What follows from a tester and a few settings alone, kept with the description for as long as that lives. */
const kept = new WeakMap<object, Map<string, unknown>>()

/**
 * Works a thing out once for an owner and a key; every reading of a lot then shares it.
 *
 * @param owner description that the thing follows from
 * @param key settings it follows from besides, and what it is
 */
export function onceFor<T>(owner: object, key: string, make: () => T): T {
  let own = kept.get(owner)
  if (own === undefined) {
    own = new Map()
    kept.set(owner, own)
  }
  if (own.has(key)) return own.get(key) as T
  const made = make()
  if (own.size < most) own.set(key, made)
  return made
}

/** So many settings are kept for one owner; a fuzzer of temperatures shall not fill the memory. */
const most = 4096
