/** Makes a text once for each thing it is about: the limits of a type are the same for every part of a lot. */
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
