/** Something worked out when it is asked for: of many candidates only the one that is chosen is carried and put in words. */
export type Later<T> = () => T

/** Works a thing out at the first asking and keeps it. */
export function later<T>(make: () => T): Later<T> {
  let known: { readonly it: T } | undefined
  return () => {
    known ??= { it: make() }
    return known.it
  }
}

/** Makes a text once for each thing it is about: limits are the same for every part of a lot. */
export function oncePer<T extends object>(make: (about: T) => string): (about: T) => string {
  const made = new WeakMap<T, string>()
  return (about) => {
    const known = made.get(about)
    if (known !== undefined) return known
    const text = make(about)
    made.set(about, text)
    return text
  }
}
