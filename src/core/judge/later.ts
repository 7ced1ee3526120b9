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
