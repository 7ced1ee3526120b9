import { useState } from 'react'
import type { StandInUse } from '#api'
import { parseValue, type Unit } from '#core/quantity'
import { Field } from '#web/field'

interface Props {
  readonly use: StandInUse
  readonly onUse: (use: StandInUse) => void
}

const fields: readonly (readonly [key: keyof StandInUse, label: string, unit: Unit, example: string])[] = [
  ['ambientC', 'Hottest air', 'degC', '50 °C'],
  ['voltageV', 'Voltage it stands', 'V', '9 V'],
  ['currentA', 'Current it carries', 'A', '5 mA'],
  ['powerW', 'Power it gets rid of', 'W', '50 mW'],
  ['frequencyHz', 'Gain needed up to', 'Hz', '15 kHz'],
]

/** How the part is used, where that is known better than its published limits say. */
export const UseForm = ({ use, onUse }: Props) => (
  <div className="stand-ins-use">
    {fields.map(([key, label, unit, example]) => (
      <UseField
        key={key}
        label={label}
        unit={unit}
        example={example}
        onValue={(value) => {
          const { [key]: _, ...others } = use
          onUse(value === undefined ? others : { ...others, [key]: value })
        }}
      />
    ))}
  </div>
)

interface FieldProps {
  readonly label: string
  readonly unit: Unit
  readonly example: string
  /** Of nothing where the field is empty. */
  readonly onValue: (value: number | undefined) => void
}

/** A value that may be left out; taken when one leaves the field or presses Enter. */
function UseField({ label, unit, example, onValue }: FieldProps) {
  const [text, setText] = useState('')
  const [fault, setFault] = useState<string>()
  const take = (): void => {
    const parsed = text.trim() === '' ? undefined : parseValue(text, { unit })
    const problem =
      parsed === undefined ? undefined : !parsed.ok ? `${parsed.problem}. ${parsed.mend}` : refusal(parsed.value, unit)
    setFault(problem)
    if (problem === undefined) onValue(parsed?.ok === true ? parsed.value : undefined)
  }
  return (
    <Field
      label={label}
      value={text}
      example={example}
      onText={setText}
      onDone={take}
      fault={fault === undefined ? undefined : `“${text}” ${fault}`}
    />
  )
}

/** Temperatures the server takes, degC. */
const air = [-60, 200] as const

function refusal(value: number, unit: Unit): string | undefined {
  if (unit === 'degC')
    return value >= air[0] && value <= air[1]
      ? undefined
      : `is no temperature of air. Give it between ${air.join(' and ')} °C.`
  return value > 0 ? undefined : 'is not above 0. Give a value above 0.'
}
