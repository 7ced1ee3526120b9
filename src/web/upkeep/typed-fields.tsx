import { parseValue, type Unit } from '#core/quantity'
import { Field } from '#web/field'

/** A value that is typed. */
export interface FieldSpec {
  readonly label: string
  readonly unit: Unit
  readonly hint?: string
  /** Text it begins with. */
  readonly start: string
  /** Whether it may be left empty. */
  readonly isOptional?: boolean
  /** What a value must be beside a number; the sentence where it is not. */
  readonly refuse?: (value: number) => string | undefined
}

export type Specs<K extends string> = Readonly<Record<K, FieldSpec>>
export type Texts<K extends string> = Readonly<Record<K, string>>

interface Understood {
  readonly value: number
  readonly u?: number
}

/** Values understood, and what is wrong with the others. */
export interface FieldsRead<K extends string> {
  readonly values: Readonly<Partial<Record<K, Understood>>>
  readonly faults: Readonly<Partial<Record<K, string>>>
  readonly isWhole: boolean
}

export const aboveZero = (value: number): string | undefined =>
  value > 0 ? undefined : 'is not above 0. Give a value above 0.'

const keysOf = <K extends string>(specs: Specs<K>): readonly K[] => Object.keys(specs) as K[]

export const startOf = <K extends string>(specs: Specs<K>): Texts<K> =>
  Object.fromEntries(keysOf(specs).map((k) => [k, specs[k].start])) as Texts<K>

/** Reads every field by itself. */
export function readFields<K extends string>(specs: Specs<K>, texts: Texts<K>): FieldsRead<K> {
  const values: Partial<Record<K, Understood>> = {}
  const faults: Partial<Record<K, string>> = {}
  for (const key of keysOf(specs)) {
    const { unit, isOptional, refuse } = specs[key]
    const text = texts[key].trim()
    if (text === '') {
      if (isOptional !== true) faults[key] = 'Nothing is typed yet.'
      continue
    }
    const parsed = parseValue(text, { unit })
    const problem = parsed.ok ? refuse?.(parsed.value) : `${parsed.problem}. ${parsed.mend}`
    if (problem !== undefined) faults[key] = `“${text}” ${problem}`
    else if (parsed.ok) values[key] = parsed
  }
  return { values, faults, isWhole: Object.keys(faults).length === 0 }
}

interface Props<K extends string> {
  readonly specs: Specs<K>
  readonly texts: Texts<K>
  readonly faults: FieldsRead<K>['faults']
  readonly onTexts: (texts: Texts<K>) => void
  /** Only these; all where left out. */
  readonly only?: readonly K[]
}

/** The fields in a grid, each with what is wrong with it. */
export const Fields = <K extends string>({ specs, texts, faults, onTexts, only }: Props<K>) =>
  (only ?? keysOf(specs)).map((key) => (
    <Field
      key={key}
      label={specs[key].label}
      example={specs[key].hint}
      value={texts[key]}
      fault={faults[key]}
      onText={(text) => onTexts({ ...texts, [key]: text })}
    />
  ))
