import { useEffect, useRef, useState } from 'react'
import { letterSymbol, letterSymbols } from '#core/device'
import { pathText } from '#core/text'
import { Field } from '#web/field'
import { LetterSymbol } from '#web/typeset'
import { withGroup, withItem, without } from './form-change.ts'
import { readConditions, writeConditions } from './form-conditions.ts'
import { FormField, type FormText } from './form-field.tsx'
import { countAt, entriesAt, textAt } from './form-open.ts'
import { firstLimit } from './form-words.ts'

const symbols = Object.keys(letterSymbols)

/** Where the symbol of a limit is typed. */
const symbolField = (index: number): string => `limit-${index + 1}-symbol`

/** The published limits, each with its conditions. */
export function FormLimits({ form }: { readonly form: FormText }) {
  const { open, onText } = form
  const count = countAt(open, ['limits'])
  const add = useRef<HTMLButtonElement>(null)
  const before = useRef(count)
  useEffect(() => {
    // Whoever works by keys goes on in the new limit, or at the button where one was taken away.
    if (count > before.current) document.getElementById(symbolField(count - 1))?.focus()
    else if (count < before.current) add.current?.focus()
    before.current = count
  }, [count])
  const first = count === 0 ? firstLimit(textAt(open, ['family'])) : ''
  return (
    <div className="matter form-limits">
      {Array.from({ length: count }, (_, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a limit has no name but its place
        <LimitFields key={i} form={form} index={i} />
      ))}
      <button
        ref={add}
        type="button"
        className="button"
        onClick={() => onText(withItem(open, ['limits'], { symbol: first }))}
      >
        Add a limit
      </button>
    </div>
  )
}

const bounds = [
  ['min', 'At least'],
  ['typ', 'Typical'],
  ['max', 'At most'],
] as const

function LimitFields({ form, index }: { readonly form: FormText; readonly index: number }) {
  const { open, onText } = form
  const path = ['limits', index]
  const symbol = letterSymbol(textAt(open, [...path, 'symbol']))
  return (
    <fieldset className="form-limit">
      <legend>
        Limit {index + 1}
        {symbol !== undefined && (
          <span className="soft">
            {' '}
            <LetterSymbol of={symbol} />, {letterSymbols[symbol]!.name}
          </span>
        )}
      </legend>
      <FormField
        form={form}
        path={[...path, 'symbol']}
        label="Symbol"
        example="h_FE"
        words={symbols}
        id={symbolField(index)}
      />
      {bounds.map(([key, label]) => (
        <FormField key={key} form={form} path={[...path, key]} label={label} kind="value" />
      ))}
      <Conditions form={form} index={index} />
      <button
        type="button"
        className="word"
        aria-label={`Take limit ${index + 1} away`}
        onClick={() => onText(without(open, path))}
      >
        Take away
      </button>
      <Others form={form} index={index} />
    </fieldset>
  )
}

/** Conditions in one line. While one types, the line stays as typed; the text holds what was understood of it. */
function Conditions({ form, index }: { readonly form: FormText; readonly index: number }) {
  const path = ['limits', index, 'at']
  const written = writeConditions(entriesAt(form.open, path))
  const [draft, setDraft] = useState(written)
  const isSame = writeConditions(readConditions(draft)) === written
  const field = pathText([...form.open.base, ...path])
  const faults = form.notes.filter((n) => n.field === field || n.field?.startsWith(`${field}.`) === true)
  return (
    <div className="form-conditions">
      <Field
        label="At these conditions"
        example="I_C 2 mA, V_CE 4.5 V"
        value={isSame ? draft : written}
        longest={1000}
        fault={faults.length === 0 ? undefined : faults.map((n) => n.say).join(' ')}
        onText={(typed) => {
          setDraft(typed)
          form.onText(withGroup(form.open, path, readConditions(typed)))
        }}
      />
    </div>
  )
}

const shown = ['symbol', ...bounds.map(([key]) => key)]

/** What is wrong with a limit as a whole. */
function Others({ form, index }: { readonly form: FormText; readonly index: number }) {
  const field = pathText([...form.open.base, 'limits', index])
  const own = new Set(shown.map((key) => `${field}.${key}`))
  const rest = form.notes.filter(
    ({ field: f = '' }) => (f === field || f.startsWith(`${field}.`)) && !own.has(f) && !/\.at(\.|$)/.test(f),
  )
  return rest.map((n) => (
    <p key={`${n.field} ${n.say}`} className="field-fault">
      {n.field === field ? '' : `${n.field?.slice(field.length + 1)}: `}
      {n.say}
    </p>
  ))
}
