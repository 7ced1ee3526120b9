import { readFileSync } from 'node:fs'
import { join } from 'node:path'

/** One key of a table of the page. */
interface Key {
  /** As the page says it: `list of [part](#part)`. */
  readonly kind: string
  readonly mayBeLeftOut: boolean
}

/** One section: the keys of an object, and an excerpt of a real one. */
export interface Section {
  readonly heading: string
  readonly keys: ReadonlyMap<string, Key>
  readonly example?: unknown
}

const text = readFileSync(join(import.meta.dirname, '../../docs/reference/json.md'), 'utf8')

/** The address of a heading inside its page, as readers of Markdown make it. */
const slug = (heading: string): string =>
  heading
    .toLowerCase()
    .replaceAll(/[^a-z0-9 -]/g, '')
    .replaceAll(' ', '-')

function sectionOf(block: string): Section {
  const heading = block.split('\n', 1)[0]!.trim()
  const keys = new Map<string, Key>()
  const table = block.includes('| key | kind |') ? block.slice(block.indexOf('| key | kind |')) : ''
  for (const [, names, kind] of table.matchAll(/^\| (`[^|]+) \| ([^|]+) \|/gm))
    for (const [, name] of names!.matchAll(/`([^`]+)`/g))
      keys.set(name!, { kind: kind!.replace(/, left out$/, ''), mayBeLeftOut: kind!.endsWith(', left out') })
  const example = /```json\n(.*?)```/s.exec(block)?.[1]
  return { heading, keys, ...(example === undefined ? {} : { example: JSON.parse(example) }) }
}

export const sections: ReadonlyMap<string, Section> = new Map(
  text
    .split(/^#{2,3} /m)
    .slice(1)
    .map(sectionOf)
    .map((s) => [slug(s.heading), s] as const),
)

/** Formats that have a section of their own. */
export const formats: readonly string[] = [...sections.values()]
  .map((s) => s.heading)
  .filter((h) => /^germane\//.test(h))

export const sectionOfFormat = (format: string): Section | undefined => sections.get(slug(format))

/** Collects what a document and the page disagree about, and which keys were met. */
export interface Found {
  readonly wrong: Set<string>
  readonly met: Set<string>
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Holds an object against a section, and what is inside it against theirs; an excerpt may lack keys. */
export function hold(value: unknown, section: Section, found: Found, isExcerpt = false): void {
  const { heading, keys } = section
  if (!isGroup(value)) return void found.wrong.add(`${heading}: ${JSON.stringify(value)} is no object`)
  for (const [name, inner] of Object.entries(value)) {
    const key = keys.get(name)
    if (key === undefined) found.wrong.add(`${heading}: ${name} is not on the page`)
    else {
      found.met.add(`${heading}: ${name}`)
      if (!fits(inner, key.kind, found, isExcerpt))
        found.wrong.add(`${heading}: ${name} is ${JSON.stringify(inner).slice(0, 60)}, not ${key.kind}`)
    }
  }
  if (isExcerpt) return
  for (const [name, key] of keys)
    if (!key.mayBeLeftOut && !(name in value)) found.wrong.add(`${heading}: ${name} is not there`)
}

function fits(value: unknown, kind: string, found: Found, isExcerpt: boolean): boolean {
  if (kind.includes(' or ') && kind !== 'true or false')
    return kind.split(' or ').some((one) => fits(value, one, found, isExcerpt))
  if (kind.startsWith('list of ')) {
    const inner = kind.slice('list of '.length)
    return (
      Array.isArray(value) &&
      value.every((one) => (inner === 'rows' ? isGroup(one) : fits(one, inner, found, isExcerpt)))
    )
  }
  const by = /^by (?:symbol|table): (.+)$/.exec(kind)
  if (by !== null) return isGroup(value) && Object.values(value).every((one) => fits(one, by[1]!, found, isExcerpt))
  const link = /^\[.+\]\(#(.+)\)$/.exec(kind)
  if (link === null) return isPlain(value, kind)
  const section = sections.get(link[1]!)
  if (section === undefined || !isGroup(value)) return false
  hold(value, section, found, isExcerpt)
  return true
}

function isPlain(value: unknown, kind: string): boolean {
  if (kind === 'text') return typeof value === 'string'
  if (kind === 'number') return typeof value === 'number'
  if (kind === 'true or false') return typeof value === 'boolean'
  return kind === 'null' && value === null
}

/** Whether an excerpt is in a real document: its keys with its values, each item of a list among those of the list. */
export function isIn(excerpt: unknown, real: unknown): boolean {
  if (Array.isArray(excerpt))
    return Array.isArray(real) && excerpt.every((item) => real.some((other) => isIn(item, other)))
  if (isGroup(excerpt)) return isGroup(real) && Object.entries(excerpt).every(([k, v]) => isIn(v, real[k]))
  if (typeof excerpt === 'number' && typeof real === 'number') return Math.abs(excerpt - real) <= 1e-6 * Math.abs(real)
  return excerpt === real
}
