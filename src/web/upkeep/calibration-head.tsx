import { parseValue } from '#core/quantity'
import { type CalibrationHead, yearAfter } from '#core/upkeep'
import { Field } from '#web/field'
import type { Attempt } from './attempt.ts'

/** What is said of a calibration as a whole, as typed. */
export interface HeadTyped {
  readonly date: string
  readonly by: string
  readonly reference: string
  readonly ambient: string
  readonly note: string
}

export const noHead: HeadTyped = { date: '', by: '', reference: '', ambient: '', note: '' }

export const today = (): string => new Date().toISOString().slice(0, 10)

/** Reads it; the date is today where nothing is typed, and it is due again a year later. */
export function headOf(typed: HeadTyped): Attempt<CalibrationHead> {
  const date = typed.date.trim() === '' ? today() : typed.date.trim()
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date) || !Number.isFinite(Date.parse(date)))
    return { ok: false, faults: [`“${date}” is not a date. Write it as 2024-05-12.`] }
  const ambient = typed.ambient.trim() === '' ? undefined : parseValue(typed.ambient, { unit: 'degC' })
  if (ambient?.ok === false) return { ok: false, faults: [`“${typed.ambient}” ${ambient.problem}. ${ambient.mend}`] }
  const text = (key: 'by' | 'reference' | 'note') => (typed[key].trim() === '' ? {} : { [key]: typed[key].trim() })
  return {
    ok: true,
    value: {
      date,
      due: yearAfter(date),
      ...text('by'),
      ...text('reference'),
      ...text('note'),
      ...(ambient === undefined ? {} : { ambientC: ambient.value }),
    },
  }
}

interface Props {
  readonly typed: HeadTyped
  readonly read: Attempt<CalibrationHead>
  readonly onTyped: (typed: HeadTyped) => void
}

const labels = {
  date: 'Day',
  by: 'By',
  reference: 'Against',
  ambient: 'At a temperature of',
  note: 'Note',
} as const satisfies Record<keyof HeadTyped, string>

const hints: Readonly<Partial<Record<keyof HeadTyped, string>>> = {
  reference: 'bench meter, checked this year',
  ambient: '21 C',
}

export function CalibrationHeadFields({ typed, read, onTyped }: Props) {
  return (
    <>
      <div className="upkeep-fields">
        {(Object.keys(labels) as (keyof HeadTyped)[]).map((key) => (
          <Field
            key={key}
            label={labels[key]}
            example={key === 'date' ? today() : hints[key]}
            value={typed[key]}
            onText={(text) => onTyped({ ...typed, [key]: text })}
          />
        ))}
      </div>
      {!read.ok && <p className="field-fault">{read.faults[0]}</p>}
    </>
  )
}
