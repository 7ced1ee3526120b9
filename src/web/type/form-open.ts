import { type Document, isCollection, isMap, isScalar, isSeq, parseDocument } from 'yaml'
import type { Path } from '#core/text'

/** The text of one part type, taken apart so that a form can show it. */
export interface OpenText {
  readonly text: string
  readonly tree: Document.Parsed
  /** Where the type stands in the text: at its top, or the only one of a list. */
  readonly base: Path
}

/** YAML as the reader of part types takes it. */
export const treeOf = (text: string): Document.Parsed =>
  parseDocument(text, { prettyErrors: false, logLevel: 'error', uniqueKeys: false, resolveKnownTags: false })

/**
 * Opens a text.
 *
 * @returns undefined where a form cannot show it: it is not sound, or holds more than one type
 * @example openText('type: GX-17\nfamily: bjt')
 */
export function openText(text: string): OpenText | undefined {
  const tree = treeOf(text)
  if (tree.errors.length > 0) return undefined
  const base = baseOf(tree)
  return base === undefined ? undefined : { text, tree, base }
}

function baseOf(tree: Document.Parsed): Path | undefined {
  const { contents } = tree
  if (isSeq(contents)) return contents.items.length === 1 && isMap(contents.items[0]) ? [0] : undefined
  if (!isMap(contents)) return undefined
  if (!contents.has('types')) return []
  const list = contents.get('types')
  return isSeq(list) && list.items.length === 1 && isMap(list.items[0]) ? ['types', 0] : undefined
}

export const nodeAt = ({ tree, base }: OpenText, path: Path): unknown => tree.getIn([...base, ...path], true)

/** What is written at a place, as it was typed; empty where nothing is, or where it is no single word or value. */
export function textAt(open: OpenText, path: Path): string {
  const node = nodeAt(open, path)
  if (!isScalar(node) || node.value === null) return ''
  return typeof node.value === 'string' ? node.value : (node.source ?? String(node.value))
}

/** Number of items of a list; a single value counts as a list of one. */
export function countAt(open: OpenText, path: Path): number {
  const node = nodeAt(open, path)
  if (isSeq(node)) return node.items.length
  return isScalar(node) && node.value !== null ? 1 : 0
}

export const isListAt = (open: OpenText, path: Path): boolean => isSeq(nodeAt(open, path))
export const isGroupAt = (open: OpenText, path: Path): boolean => isCollection(nodeAt(open, path))

/** Keys and values of a group, as typed, in their order. */
export function entriesAt(open: OpenText, path: Path): readonly (readonly [key: string, value: string])[] {
  const node = nodeAt(open, path)
  if (!isMap(node)) return []
  return node.items.map((pair) => {
    const key = String(isScalar(pair.key) ? pair.key.value : pair.key)
    return [key, textAt(open, [...path, key])] as const
  })
}
