import type { z } from 'zod'
import { type Path, valueAt } from './document.ts'

type Schema = z.core.$ZodType
type Def = z.core.$ZodTypes['_zod']['def']

/** What a schema says about itself with `.meta()`, as far as faults use it. */
export interface SchemaWords {
  readonly description?: string
  readonly examples?: readonly unknown[]
}

/** The words attached to a schema, or to what it wraps. */
export function wordsOf(schema: Schema): SchemaWords {
  const own = (schema as z.ZodType).meta?.() as SchemaWords | undefined
  if (own?.description !== undefined || own?.examples !== undefined) return own
  const inner = innerOf(schema)
  return inner === undefined ? {} : wordsOf(inner)
}

/** What an optional, a default, a transform and the like wrap. */
function innerOf(schema: Schema): Schema | undefined {
  const def = schema._zod.def as Def
  switch (def.type) {
    case 'optional':
    case 'nullable':
    case 'default':
    case 'prefault':
    case 'nonoptional':
    case 'readonly':
    case 'catch':
      return def.innerType
    case 'pipe':
      return def.in
    case 'lazy':
      return def.getter()
    default:
      return undefined
  }
}

/** Schemas that may hold at a path: one, or several where a union leaves it open. */
export function schemasAt(schema: Schema, path: Path, data: unknown): readonly Schema[] {
  let open = alternatives(schema, data)
  let value = data
  for (const step of path) {
    value = valueAt(value, [step])
    open = open.flatMap((s) => {
      const next = childOf(s, step)
      return next === undefined ? [] : alternatives(next, value)
    })
  }
  return open
}

/** A schema freed of its wraps, and the options of a union that the data may have meant. */
function alternatives(schema: Schema, data: unknown): readonly Schema[] {
  const inner = innerOf(schema)
  if (inner !== undefined) return alternatives(inner, data)
  const def = schema._zod.def as Def
  if (def.type === 'intersection') return [...alternatives(def.left, data), ...alternatives(def.right, data)]
  if (def.type !== 'union') return [schema]
  const options = def.options.flatMap((o) => alternatives(o, data))
  const name = (def as { discriminator?: string }).discriminator
  if (name === undefined) return options
  const tag = valueAt(data, [name])
  const fitting = options.filter((o) => literalsOf(childOf(o, name)).includes(tag))
  return fitting.length > 0 ? fitting : options
}

function childOf(schema: Schema, step: PropertyKey): Schema | undefined {
  const def = schema._zod.def as Def
  if (def.type === 'object') return def.shape[String(step)] ?? def.catchall
  if (def.type === 'record') return def.valueType
  if (def.type === 'array') return def.element
  if (def.type === 'tuple') return def.items[Number(step)]
  return undefined
}

/** The words a schema allows, where it allows words. */
export function literalsOf(schema: Schema | undefined): readonly unknown[] {
  if (schema === undefined) return []
  const inner = innerOf(schema)
  if (inner !== undefined) return literalsOf(inner)
  const def = schema._zod.def as Def
  if (def.type === 'literal') return def.values
  if (def.type === 'enum') return Object.values(def.entries)
  if (def.type === 'union') return def.options.flatMap(literalsOf)
  return []
}

/** Keys that a group at a path may have. */
export function keysAt(schema: Schema, path: Path, data: unknown): readonly string[] {
  const keys = schemasAt(schema, path, data).flatMap((s) => {
    const def = s._zod.def as Def
    return def.type === 'object' ? Object.keys(def.shape) : []
  })
  return [...new Set(keys)]
}
