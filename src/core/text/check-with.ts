import type { z } from 'zod'
import type { Fault } from '#core/fault'
import { documentFault, type Path, placeOf, type TextDocument, valueAt } from './document.ts'
import { nearNames } from './near.ts'
import { keysAt, literalsOf, schemasAt, wordsOf } from './schema-walk.ts'

type Issue = z.core.$ZodIssue
type Checked<T> = { readonly ok: true; readonly data: T } | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * Holds a document against a schema. Every issue becomes a fault with file, line, column, path, the value found and
 * the mend: near names for an unknown key, what to write for a missing one, the words allowed.
 *
 * A schema adds to the sentences by `.meta({ description, examples })`, and by custom issues, whose message is the
 * problem as a clause ("is not a current") and whose `params.mend` is a sentence.
 *
 * @returns the schema's output, or all faults together
 */
export function checkWith<S extends z.ZodType>(schema: S, document: TextDocument): Checked<z.output<S>> {
  const result = schema.safeParse(document.data)
  if (result.success) return { ok: true, data: result.data }
  const faults = result.error.issues.flatMap((issue) => faultsOf(issue, [], { schema, document }))
  return { ok: false, faults }
}

interface Scene {
  readonly schema: z.ZodType
  readonly document: TextDocument
}

function faultsOf(issue: Issue, base: Path, scene: Scene): readonly Fault[] {
  const path = [...base, ...issue.path]
  const { document } = scene
  const say = (problem: string, mend: string): readonly Fault[] => [documentFault(document, path, problem, mend)]
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownKey(key, path, scene))
    case 'invalid_union':
      return unionFaults(issue, path, scene)
    case 'invalid_type':
      return valueAt(document.data, path) === undefined ? [missing(path, scene)] : wrongKind(issue, path, scene)
    case 'invalid_value':
      return [notAllowed(issue.values, path, scene)]
    case 'too_small':
    case 'too_big':
      return say(sizeProblem(issue), exampleMend(path, scene) ?? sizeMend(issue))
    case 'invalid_key':
    case 'invalid_element':
      return issue.issues.flatMap((inner) => faultsOf(inner, path, scene))
    case 'custom': {
      const mend = issue.params?.mend as string | undefined
      return say(issue.message, mend ?? exampleMend(path, scene) ?? 'Check it.')
    }
    case 'invalid_format':
      return say('is not written as it should be', exampleMend(path, scene) ?? `${issue.message}.`)
    case 'not_multiple_of':
      return say(`is not a multiple of ${issue.divisor}`, exampleMend(path, scene) ?? 'Check it.')
  }
}

function unknownKey(key: string, path: Path, scene: Scene): Fault {
  const known = keysAt(scene.schema, path, scene.document.data)
  const present = Object.keys(valueAt(scene.document.data, path) ?? {})
  const near = nearNames(
    key,
    known.filter((k) => !present.includes(k)),
  )
  const mend =
    near.length > 0
      ? `Did you mean ${near.join(' or ')}?`
      : known.length === 0
        ? 'Take it out.'
        : `Keys known here: ${known.join(', ')}.`
  const place = placeOf(scene.document, [...path, key], 'key')
  return { code: 'bad-input', place, value: key, problem: 'is not a key that is known here', mend }
}

function missing(path: Path, scene: Scene): Fault {
  const key = String(path.at(-1) ?? 'the text')
  const place = placeOf(scene.document, path.slice(0, -1), 'key')
  const problem = 'is missing'
  return { code: 'bad-input', place, value: key, problem, mend: missingMend(key, path, scene) }
}

function missingMend(key: string, path: Path, scene: Scene): string {
  const [schema] = schemasAt(scene.schema, path, scene.document.data)
  const { examples, description } = describe(path, scene)
  const example = examples?.[0] ?? literalsOf(schema)[0]
  const what = aside(description)
  return example === undefined ? `Add ${key}${what}.` : `Add a line such as ${key}: ${exampleText(example)}${what}.`
}

const exampleText = (example: unknown): string => (typeof example === 'string' ? example : JSON.stringify(example))

/** A description in parentheses, to go inside a sentence. */
const aside = (description: string | undefined): string =>
  description === undefined ? '' : ` (${description.charAt(0).toLowerCase()}${description.slice(1).replace(/\.$/, '')})`

/** Words of the schema at a path, looked for from the outside of its wraps. */
function describe(path: Path, scene: Scene): ReturnType<typeof wordsOf> {
  const parents = schemasAt(scene.schema, path.slice(0, -1), scene.document.data)
  const key = path.at(-1)
  for (const parent of parents) {
    const def = parent._zod.def as { shape?: Record<string, z.core.$ZodType>; element?: z.core.$ZodType }
    const child = typeof key === 'number' ? def.element : def.shape?.[String(key)]
    if (child !== undefined) return wordsOf(child)
  }
  return {}
}

function exampleMend(path: Path, scene: Scene): string | undefined {
  const { description, examples } = describe(path, scene)
  const [example] = examples ?? []
  if (example !== undefined) return `Write it as ${exampleText(example)}${aside(description)}.`
  const what = description === undefined ? '' : description.charAt(0).toLowerCase() + description.slice(1)
  return what === '' ? undefined : `Write ${what.replace(/\.?$/, '.')}`
}

const kindWords: Readonly<Record<string, readonly [a: string, mend: string]>> = {
  string: ['text', 'Write a text.'],
  number: ['a number', 'Write a plain number.'],
  int: ['a whole number', 'Write a whole number.'],
  boolean: ['true or false', 'Write true or false.'],
  array: ['a list', 'Write it as a list: [a, b], or one item to a line after a hyphen.'],
  object: ['a group of keys', 'Write its keys on lines below, indented.'],
  record: ['a group of keys', 'Write its keys on lines below, indented.'],
}

function wrongKind(issue: Extract<Issue, { code: 'invalid_type' }>, path: Path, scene: Scene): readonly Fault[] {
  const [a, mend] = kindWords[issue.expected] ?? [issue.expected, 'Check it.']
  return [documentFault(scene.document, path, `is not ${a}`, exampleMend(path, scene) ?? mend)]
}

function notAllowed(values: readonly unknown[], path: Path, scene: Scene): Fault {
  const value = valueAt(scene.document.data, path)
  if (value === undefined) return missing(path, scene)
  const words = [...new Set(values.map(String))]
  const near = nearNames(String(value), words, 1)
  const all = words.length === 1 ? `Write ${words[0]}.` : `Write one of: ${words.join(', ')}.`
  const example = describe(path, scene).examples?.[0]
  const group = typeof example === 'string' && example.startsWith('{') ? ` Or write a group such as ${example}.` : ''
  const mend = `${near.length > 0 && words.length > 1 ? `Did you mean ${near[0]}? ` : ''}${all}${group}`
  return documentFault(
    scene.document,
    path,
    words.length === 1 ? 'is not the word wanted here' : 'is not a word allowed here',
    mend,
  )
}

function sizeProblem(issue: Extract<Issue, { code: 'too_small' | 'too_big' }>): string {
  const isSmall = issue.code === 'too_small'
  const bound = String(isSmall ? issue.minimum : issue.maximum)
  const edge = issue.inclusive === false ? (isSmall ? 'more than' : 'less than') : isSmall ? 'at least' : 'at most'
  if (issue.origin === 'array' || issue.origin === 'set')
    return `has too ${isSmall ? 'few' : 'many'} items: it needs ${edge} ${bound}`
  if (issue.origin === 'string')
    return isSmall && bound === '1'
      ? 'is empty'
      : `is too ${isSmall ? 'short' : 'long'}: it needs ${edge} ${bound} letters`
  return `is too ${isSmall ? 'small' : 'large'}: it must be ${edge} ${bound}`
}

function sizeMend(issue: Extract<Issue, { code: 'too_small' | 'too_big' }>): string {
  const isSmall = issue.code === 'too_small'
  if (issue.origin === 'array' || issue.origin === 'set') return isSmall ? 'Add to the list.' : 'Take some out.'
  if (issue.origin === 'string') return isSmall ? 'Write a text.' : 'Write less.'
  return isSmall ? 'Write a larger number.' : 'Write a smaller number.'
}

/** Faults of the option of a union that came nearest: the one that got deepest, then the one with the fewest faults. */
function unionFaults(issue: Extract<Issue, { code: 'invalid_union' }>, path: Path, scene: Scene): readonly Fault[] {
  if (issue.errors.length === 0) {
    const words = schemasAt(scene.schema, path.slice(0, -1), scene.document.data).flatMap((s) => {
      const def = s._zod.def as { shape?: Record<string, z.core.$ZodType> }
      return literalsOf(def.shape?.[String(path.at(-1))])
    })
    return [notAllowed(words, path, scene)]
  }
  const value = valueAt(scene.document.data, path)
  if (value === undefined) return [missing(path, scene)]
  const isGroup = typeof value === 'object'
  const isOffKind = (issues: readonly Issue[]): boolean =>
    issues.some((i) => i.path.length === 0 && (i.code === 'invalid_type' || (isGroup && i.code === 'invalid_value')))
  const fitting = issue.errors.filter((e) => !isOffKind(e))
  if (fitting.length === 0) {
    const mend = exampleMend(path, scene) ?? 'Check it.'
    return [documentFault(scene.document, path, 'is not of a kind that is known here', mend)]
  }
  const nearest = fitting.reduce((a, b) => (b.length < a.length ? b : a))
  return nearest.flatMap((inner) => faultsOf(inner, path, scene))
}
