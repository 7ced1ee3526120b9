import type { Find, Spot } from './document.ts'
import { lineIndex } from './text-fault.ts'

/** Positions in a text that is known to be sound JSON (it went through `JSON.parse`), found by walking over it. */

/** Thrown inside this module's walk when brackets are nested beyond reason. */
export class Nested extends Error {
  override readonly name = 'Nested'
}

/** Deepest nesting that is read. */
export const deepest = 64

/** Called for each value with its path so far; says whether to look inside. */
interface Visitor {
  readonly key?: (depth: number, key: string, offset: number) => void
  readonly object?: (depth: number) => void
}

const isBlank = (c: number): boolean => c === 32 || c === 10 || c === 13 || c === 9

function skipBlanks(text: string, at: number): number {
  let i = at
  while (isBlank(text.charCodeAt(i))) i++
  return i
}

/** Offset just after the string that starts at a quote. */
function skipString(text: string, at: number): number {
  let i = text.indexOf('"', at + 1)
  while (isEscaped(text, i)) i = text.indexOf('"', i + 1)
  return i + 1
}

function isEscaped(text: string, at: number): boolean {
  let slashes = 0
  while (text.charCodeAt(at - 1 - slashes) === 92) slashes++
  return slashes % 2 === 1
}

/** Offset just after the value that starts at `at`; tells the visitor of every object and key on the way. */
function walk(text: string, at: number, depth: number, visit: Visitor): number {
  if (depth > deepest) throw new Nested()
  const c = text[at]
  if (c === '"') return skipString(text, at)
  if (c !== '{' && c !== '[') return skipPlain(text, at)
  if (c === '{') visit.object?.(depth)
  let i = skipBlanks(text, at + 1)
  while (text[i] !== '}' && text[i] !== ']') {
    if (c === '{') {
      const end = skipString(text, i)
      visit.key?.(depth, text.slice(i, end), i)
      i = skipBlanks(text, skipBlanks(text, end) + 1)
    }
    i = skipBlanks(text, walk(text, i, depth + 1, visit))
    if (text[i] === ',') i = skipBlanks(text, i + 1)
  }
  return i + 1
}

function skipPlain(text: string, at: number): number {
  let i = at
  while (i < text.length && !',]}'.includes(text[i]!) && !isBlank(text.charCodeAt(i))) i++
  return i
}

const unquoted = (quoted: string): string =>
  quoted.includes('\\') ? (JSON.parse(quoted) as string) : quoted.slice(1, -1)

/** The first key that stands twice in one object. */
export function firstRepeatedKey(text: string): { readonly key: string; readonly offset: number } | undefined {
  const seen: Set<string>[] = []
  let found: { key: string; offset: number } | undefined
  walk(text, skipBlanks(text, 0), 0, {
    object: (depth) => {
      const set = seen[depth]
      if (set === undefined) seen[depth] = new Set()
      else set.clear()
    },
    key: (depth, quoted, offset) => {
      const key = unquoted(quoted)
      if (seen[depth]!.has(key)) found ??= { key, offset }
      seen[depth]!.add(key)
    },
  })
  return found
}

/** A value inside a list or group: offset of its key, where it has one, and of itself. */
interface Child {
  readonly key?: number
  readonly value: number
}

/** Finds values of a JSON text by path. Each list or group on the way is walked over once and remembered. */
export function jsonFinder(text: string): Find {
  const known = new Map<number, ReadonlyMap<string, Child>>()
  let lines: ReturnType<typeof lineIndex> | undefined
  const spot = (start: number, end: number): Spot => {
    lines ??= lineIndex(text)
    return { ...lines(start), text: text.slice(start, end) }
  }
  const childrenAt = (at: number): ReadonlyMap<string, Child> => {
    const children = known.get(at) ?? childrenOf(text, at)
    known.set(at, children)
    return children
  }
  return (path, what = 'value') => {
    let at = skipBlanks(text, 0)
    let key: number | undefined
    for (const step of path) {
      const child = childrenAt(at).get(String(step))
      if (child === undefined) return undefined
      at = child.value
      key = child.key
    }
    if (what === 'key' && key !== undefined) return spot(key, skipString(text, key))
    return spot(at, walk(text, at, 0, {}))
  }
}

function childrenOf(text: string, at: number): ReadonlyMap<string, Child> {
  const children = new Map<string, Child>()
  const isList = text[at] === '['
  if (!isList && text[at] !== '{') return children
  let i = skipBlanks(text, at + 1)
  while (text[i] !== '}' && text[i] !== ']') {
    if (isList) children.set(String(children.size), { value: i })
    else {
      const key = i
      const end = skipString(text, i)
      i = skipBlanks(text, skipBlanks(text, end) + 1)
      children.set(unquoted(text.slice(key, end)), { key, value: i })
    }
    i = skipBlanks(text, walk(text, i, 0, {}))
    if (text[i] === ',') i = skipBlanks(text, i + 1)
  }
  return children
}
