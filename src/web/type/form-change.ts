import { type Document, isMap, isScalar, isSeq, parse, Scalar, YAMLMap } from 'yaml'
import { conditionSymbols, ratingUnits } from '#core/device'
import type { Path } from '#core/text'
import { nodeAt, type OpenText, treeOf } from './form-open.ts'

/** What a value is: words, which stay words even where they look like a number, or a number with or without its unit. */
export type Kind = 'words' | 'value'

/** The order in which the keys of a record are written; others stand behind. */
const keyOrder: readonly string[] = [
  ...['type', 'family', 'polarity', 'material', 'construction', 'outline', 'leads', 'ratings', 'limits', 'use'],
  ...['trouble', 'source', 'order', 'view', 'caseConnected', 'variants', ...Object.keys(ratingUnits), 'power', 'other'],
  ...['symbol', 'min', 'typ', 'max', 'unit', 'at', ...conditionSymbols, 'note'],
]

const rank = (key: unknown): number => {
  const at = keyOrder.indexOf(String(isScalar(key) ? key.value : key))
  return at < 0 ? keyOrder.length : at
}

/** Characters that mean nothing to YAML wherever they stand. */
const plain = /^[\p{L}\d(.+][\p{L}\d _.()/%°·±+-]*$/u

/** A text with something written at a place. Where it is there already, nothing else of the text is touched. */
export function withText(open: OpenText, path: Path, written: string, kind: Kind): string {
  if (written === '') return without(open, path)
  const node = nodeAt(open, path)
  const range = isScalar(node) && /^(PLAIN|QUOTE_)/.test(node.type ?? '') ? node.range : undefined
  if (range === undefined || range === null || range[0] === range[1])
    return changed(open, (tree, base) => put(tree, [...base, ...path], scalarOf(written, kind)))
  const isQuoted = isScalar(node) && node.type !== 'PLAIN'
  const made = isQuoted ? JSON.stringify(written) : inline(written, kind)
  return open.text.slice(0, range[0]) + made + open.text.slice(range[1])
}

/** A text without what stands at a place; a group that is empty then goes as well. */
export const without = (open: OpenText, path: Path): string =>
  changed(open, (tree, base) => {
    for (let at = path; at.length > 0; at = at.slice(0, -1)) {
      tree.deleteIn([...base, ...at])
      const above = tree.getIn([...base, ...at.slice(0, -1)], true)
      if (!(isMap(above) || isSeq(above)) || above.items.length > 0) return
    }
  })

/** A text with one more item at the end of a list. */
export const withItem = (open: OpenText, path: Path, item: Readonly<Record<string, string>> | string): string =>
  changed(open, (tree, base) => {
    const whole = [...base, ...path]
    const made = tree.createNode(item, { flow: true })
    const there = tree.getIn(whole, true)
    if (isSeq(there)) {
      there.add(made)
      return
    }
    const before = isScalar(there) && there.value !== null ? [there] : []
    put(tree, whole, tree.createNode([]))
    for (const one of [...before, made]) tree.addIn(whole, one)
  })

/** A text with the keys and values of a group instead of those that were there. */
export const withGroup = (open: OpenText, path: Path, entries: readonly (readonly [string, string])[]): string =>
  entries.length === 0
    ? without(open, path)
    : changed(open, (tree, base) => {
        const group = new YAMLMap(tree.schema)
        group.flow = true
        for (const [key, value] of entries) group.set(key, value === '' ? null : scalarOf(value, 'value'))
        put(tree, [...base, ...path], group)
      })

/** The text after a change of its tree; comments stay. */
function changed({ text, base }: OpenText, change: (tree: Document, base: Path) => void): string {
  const tree = treeOf(text)
  change(tree as Document, base)
  return tree.toString({ lineWidth: 0 })
}

/** Puts a value where the order of keys has its place; groups on the way to it are made. */
function put(tree: Document, path: Path, value: unknown): void {
  const key = path.at(-1)
  const above = path.slice(0, -1)
  const there = above.length === 0 ? tree.contents : tree.getIn(above, true)
  if (above.length > 0 && !isMap(there) && !isSeq(there)) put(tree, above, new YAMLMap(tree.schema))
  const group = above.length === 0 ? tree.contents : tree.getIn(above, true)
  if (!isMap(group) || group.has(key)) {
    tree.setIn(path, value)
    return
  }
  const at = group.items.findIndex((pair) => rank(pair.key) > rank(key))
  group.items.splice(at < 0 ? group.items.length : at, 0, tree.createPair(key, value) as never)
}

const isNumber = (written: string): boolean => /^-?\d+(\.\d+)?(e-?\d+)?$/i.test(written)

const scalarOf = (written: string, kind: Kind): string | Scalar =>
  kind === 'value' && isNumber(written) ? new Scalar(Number(written)) : written

/** A value as it stands within a line of YAML: in quotes where it would mean something else without them. */
function inline(written: string, kind: Kind): string {
  const isPlain = plain.test(written) && !written.endsWith(' ')
  if (!isPlain) return JSON.stringify(written)
  return kind === 'value' || parse(written) === written ? written : JSON.stringify(written)
}
