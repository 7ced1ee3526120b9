import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
  isPair,
  isScalar,
  isSeq,
  LineCounter,
  parseDocument,
  type Scalar,
  visit,
} from 'yaml'
import type { Fault } from '#core/fault'
import type { DocumentRead, Find, Spot } from './document.ts'
import { filePlace, type ReadOptions, textFault } from './text-fault.ts'

/** Faults of form beyond this number are not listed: they follow from the first ones. */
const mostFormFaults = 10

/** Keys given twice are found by our own walk: the reader's check compares every key with every other. */
const treeOptions = { prettyErrors: false, logLevel: 'error', uniqueKeys: false, resolveKnownTags: false } as const

/** Reads a text with YAML's reader. */
export function readTree(text: string, options: ReadOptions): DocumentRead {
  const lines = new LineCounter()
  try {
    const tree = parseDocument(text, { ...treeOptions, lineCounter: lines })
    const faults = formFaults(tree, text, lines, options)
    if (faults.length > 0) return { ok: false, faults }
    const data: unknown = tree.toJS({ maxAliasCount: 0 })
    return { ok: true, document: { ...filePlace(options.file), kind: 'yaml', data, find: finder(tree, text, lines) } }
  } catch {
    // The reader gives up by an exception only on texts nested beyond what its stack takes.
    return { ok: false, faults: [textFault(options.file, 'is nested too deeply', 'Check its brackets and indents.')] }
  }
}

function formFaults(tree: Document.Parsed, text: string, lines: LineCounter, options: ReadOptions): Fault[] {
  const faults: Fault[] = []
  const file = filePlace(options.file)
  const at = (offset: number): { line: number; column: number } => {
    const { line, col } = lines.linePos(offset)
    return { line: Math.max(1, line), column: Math.max(1, col) }
  }
  for (const e of tree.errors.slice(0, mostFormFaults)) {
    const said = saidAs[e.code] ?? { problem: `cannot be read: ${e.message.replace(/\.$/, '')}`, mend: formMend }
    faults.push({ code: 'bad-input', place: { ...file, ...at(e.pos[0]) }, value: found(text, e.pos[0]), ...said })
  }
  if (faults.length > 0) return faults
  const add = (offset: number, value: string, problem: string, mend: string): symbol | undefined => {
    faults.push({ code: 'bad-input', place: { ...file, ...at(offset) }, value, problem, mend })
    return faults.length >= mostFormFaults ? visit.BREAK : undefined
  }
  visit(tree, {
    Alias: (_, node) =>
      add(node.range?.[0] ?? 0, `*${node.source}`, 'points to another place', 'Write the value out in full here.'),
    Map: (_, map) => {
      const seen = new Set<string>()
      for (const { key } of map.items) {
        if (isCollection(key))
          add(key.range?.[0] ?? 0, 'a group', 'stands in the place of a key', 'Write a plain word before the colon.')
        const name = isScalar(key) ? String(key.value) : undefined
        if (name !== undefined && seen.has(name))
          add((key as Scalar.Parsed).range[0], name, 'is given twice', 'Keep one of them.')
        if (name !== undefined) seen.add(name)
        if (faults.length >= mostFormFaults) return visit.BREAK
      }
      return undefined
    },
  })
  return faults
}

const formMend = 'Check indents, colons and quotes on this line and the one before.'

const colonMend = 'Write a blank after the colon, and line the key up with its neighbours.'

const saidAs: Readonly<Record<string, { readonly problem: string; readonly mend: string }>> = {
  TAB_AS_INDENT: { problem: 'starts with a tab', mend: 'Indent with blanks.' },
  MULTIPLE_DOCS: { problem: 'begins a second document', mend: 'Put one description in a file; take out the --- line.' },
  MULTILINE_IMPLICIT_KEY: { problem: 'is neither a key with its value nor a list item', mend: colonMend },
  BLOCK_AS_IMPLICIT_KEY: { problem: 'has a second colon on its line', mend: 'Put text that has a colon in quotes.' },
  BAD_SCALAR_START: { problem: 'begins with a sign that has its own meaning in YAML', mend: 'Put the text in quotes.' },
  UNEXPECTED_TOKEN: { problem: 'does not fit what stands before it', mend: formMend },
  BAD_INDENT: { problem: 'stands at an indent that fits nothing above it', mend: 'Line it up with its neighbours.' },
}

/** The word at an offset, for people. */
function found(text: string, offset: number): string {
  const word = text
    .slice(offset, offset + 60)
    .split(/[\r\n]/)[0]!
    .trim()
  return word === '' ? 'the text here' : word.split(/:\s|:$/)[0]!
}

function finder(tree: Document.Parsed, text: string, lines: LineCounter): Find {
  const spot = (node: unknown): Spot | undefined => {
    if (!isNode(node) || node.range === undefined || node.range === null) return undefined
    const [start, end] = node.range
    const { line, col } = lines.linePos(start)
    return { line, column: col, text: text.slice(start, end).trim() }
  }
  return (path, what = 'value') => {
    let node: unknown = tree.contents
    let key: unknown
    for (const step of path) {
      if (isSeq(node)) [node, key] = [node.items[Number(step)], undefined]
      else if (isMap(node)) {
        const pair = node.items.find((p) => isPair(p) && isScalar(p.key) && String(p.key.value) === String(step))
        ;[node, key] = [pair?.value, pair?.key]
      } else return undefined
      if (node === undefined && key === undefined) return undefined
    }
    if (isAlias(node)) return undefined
    return what === 'key' && key !== undefined ? spot(key) : (spot(node) ?? spot(key))
  }
}
