import type { DocumentRead } from './document.ts'
import { firstRepeatedKey, jsonFinder, Nested } from './json.ts'
import { filePlace, lineIndex, longestText, type ReadOptions, textFault, unreadable } from './text-fault.ts'
import { readTree } from './tree.ts'

/**
 * Reads a YAML or JSON text. Every fault of form comes back with line and column; nothing is thrown. Keys given twice
 * are refused, and so are YAML's pointers to other places of the file, which a person would have to chase.
 *
 * @example readYaml('id: bench\nclass: 2 %', { file: 'bench.yaml' })
 */
export function readYaml(text: string, options: ReadOptions = {}): DocumentRead {
  const body = text.startsWith('\ufeff') ? text.slice(1) : text
  const isJson = /^\s*[[{]/.test(body)
  const fault = unreadable(body, isJson ? longestText.json : longestText.yaml, options)
  if (fault !== undefined) return { ok: false, faults: [fault] }
  return (isJson ? readJson(body, options) : undefined) ?? readTree(body, options)
}

/** The fast way for JSON; undefined when it is not JSON, so that YAML's reader can say where and why. */
function readJson(text: string, options: ReadOptions): DocumentRead | undefined {
  const refuse = (problem: string, mend: string): DocumentRead => ({
    ok: false,
    faults: [textFault(options.file, problem, mend)],
  })
  let data: unknown
  try {
    data = JSON.parse(text)
  } catch {
    if (text.length <= longestText.yaml) return undefined
    return refuse('is not sound JSON', 'Check its commas, quotes and brackets.')
  }
  try {
    const repeated = firstRepeatedKey(text)
    if (repeated !== undefined) {
      const place = { ...filePlace(options.file), ...lineIndex(text)(repeated.offset) }
      const mend = 'Keep one of them.'
      return { ok: false, faults: [{ code: 'bad-input', place, value: repeated.key, problem: 'is given twice', mend }] }
    }
  } catch (e) {
    if (!(e instanceof Nested)) throw e
    return refuse('is nested too deeply', 'Check its brackets.')
  }
  return { ok: true, document: { ...filePlace(options.file), kind: 'json', data, find: jsonFinder(text) } }
}
