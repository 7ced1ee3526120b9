import { isSeq, parseDocument } from 'yaml'

/**
 * A YAML or JSON text with one more item at the end of a list under a key of its outermost group; the list is made where
 * there is none. Comments of a YAML text stay.
 *
 * @param text a text that `readYaml` reads
 */
export function addToList(text: string, key: string, item: unknown): string {
  const body = text.startsWith('\ufeff') ? text.slice(1) : text
  if (/^\s*\{/.test(body)) {
    const whole = JSON.parse(body) as Record<string, unknown>
    const before = Array.isArray(whole[key]) ? (whole[key] as readonly unknown[]) : []
    return `${JSON.stringify({ ...whole, [key]: [...before, item] }, null, 2)}\n`
  }
  const document = parseDocument(body)
  const list = document.get(key)
  if (isSeq(list)) list.add(document.createNode(item))
  else document.set(key, document.createNode([item]))
  return document.toString({ lineWidth: 0 })
}
