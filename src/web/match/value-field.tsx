import { useEffect, useState } from 'react'
import { parseValue, type Unit } from '#core/quantity'
import { Field } from '#web/field'
import { plainText } from '#web/typeset'

interface Props {
  readonly label: string
  readonly value: number
  readonly unit: Unit
  readonly onValue: (value: number) => void
  /** What a value must be beside a number; the sentence where it is not. */
  readonly refuse?: (value: number) => string | undefined
}

/** A field for a value with its unit; what cannot be used is said below, and the value before it stays. */
export function ValueField({ label, value, unit, onValue, refuse }: Props) {
  const shown = plainText(value, unit, 4)
  const [text, setText] = useState(shown)
  const [fault, setFault] = useState<string>()
  // follows the value where it changes elsewhere, not while one types
  useEffect(() => {
    setText((before) => (read(before, unit) === value ? before : shown))
    setFault(undefined)
  }, [value, unit, shown])
  const take = (typed: string): void => {
    setText(typed)
    const parsed = parseValue(typed, { unit })
    const problem = parsed.ok ? refuse?.(parsed.value) : `${parsed.problem}. ${parsed.mend}`
    setFault(problem)
    if (parsed.ok && problem === undefined) onValue(parsed.value)
  }
  return (
    <Field
      label={label}
      value={text}
      fault={fault === undefined ? undefined : `“${text}” ${fault}`}
      onText={take}
      onDone={() => fault === undefined && setText(shown)}
    />
  )
}

function read(text: string, unit: Unit): number | undefined {
  const parsed = parseValue(text, { unit })
  return parsed.ok ? parsed.value : undefined
}
