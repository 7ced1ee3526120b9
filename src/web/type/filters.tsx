import { NativeSelect, TextInput } from '@mantine/core'
import type { KeyboardEvent } from 'react'
import { useMemo } from 'react'
import type { PartType } from '#core/device'
import { LetterSymbol } from '#web/typeset'
import { type Asked, outlinesOf } from './find-types.ts'
import type { WantsRead } from './wants.ts'

interface Props {
  readonly asked: Asked
  readonly ask: (change: Partial<Asked>) => void
  readonly types: readonly PartType[]
  readonly wants: WantsRead
  readonly onKeyDown: (e: KeyboardEvent) => void
}

const kinds = [
  { value: '', label: 'Any kind' },
  { value: 'bjt', label: 'Transistor, bipolar' },
  { value: 'diode', label: 'Diode' },
  { value: 'zener', label: 'Zener diode' },
  { value: 'jfet', label: 'JFET' },
  { value: 'mosfet', label: 'MOSFET' },
  { value: 'scr', label: 'Thyristor' },
  { value: 'triac', label: 'Triac' },
  { value: 'ujt', label: 'Unijunction' },
]
const polarities = [
  ['', 'Any'],
  ['NPN', 'NPN'],
  ['PNP', 'PNP'],
  ['N', 'N'],
  ['P', 'P'],
] as const
const materials = [
  ['', 'Any'],
  ['Ge', 'Ge'],
  ['Si', 'Si'],
] as const

/** What the list is asked for: number, limits, polarity, material, case. */
export function Filters({ asked, ask, types, wants, onKeyDown }: Props) {
  const outlines = useMemo(() => outlinesOf(types), [types])
  return (
    <search>
      <form className="filters" aria-label="Part types" onSubmit={(e) => e.preventDefault()}>
        <TextInput
          className="filters-number"
          type="search"
          label="Number, or words of its use"
          placeholder="AC128, bc 107, audio driver"
          value={asked.q}
          onChange={(e) => ask({ q: e.currentTarget.value })}
          onKeyDown={onKeyDown}
          spellCheck={false}
          autoComplete="off"
        />
        <LimitField asked={asked} ask={ask} wants={wants} onKeyDown={onKeyDown} />
        <Choice
          name="polarity"
          label="Polarity"
          values={polarities}
          value={asked.polarity}
          onChoose={(polarity) => ask({ polarity })}
        />
        <Choice
          name="material"
          label="Material"
          values={materials}
          value={asked.material}
          onChoose={(material) => ask({ material })}
        />
        <NativeSelect
          label="Kind"
          data={kinds}
          value={asked.kind}
          onChange={(e) => ask({ kind: e.currentTarget.value })}
        />
        <NativeSelect
          label="Case"
          data={[{ value: '', label: 'Any case' }, ...outlines.map((o) => ({ value: o, label: o }))]}
          value={asked.outline}
          onChange={(e) => ask({ outline: e.currentTarget.value })}
        />
      </form>
    </search>
  )
}

function LimitField({ asked, ask, wants, onKeyDown }: Omit<Props, 'types'>) {
  return (
    <div className="filters-limits">
      <TextInput
        label="Limits it must have"
        placeholder="V_CEO > 20 V, h_FE > 100"
        value={asked.limits}
        onChange={(e) => ask({ limits: e.currentTarget.value })}
        onKeyDown={onKeyDown}
        error={wants.faults.length === 0 ? undefined : wants.faults.join(' ')}
        spellCheck={false}
        autoComplete="off"
        autoCapitalize="off"
      />
      {wants.echo.length > 0 && (
        <p className="field-hint">
          {wants.echo.map((say, i) => (
            <span key={say}>
              {i > 0 && ', '}
              <LetterSymbol of={say.slice(0, say.indexOf(' '))} />
              {say.slice(say.indexOf(' '))}
            </span>
          ))}
        </p>
      )}
    </div>
  )
}

interface ChoiceProps {
  readonly name: string
  readonly label: string
  readonly values: readonly (readonly [value: string, word: string])[]
  readonly value: string
  readonly onChoose: (value: string) => void
}

/** One of a few words. */
function Choice({ name, label, values, value, onChoose }: ChoiceProps) {
  return (
    <fieldset className="choice">
      <legend className="field-label">{label}</legend>
      {values.map(([v, word]) => (
        <label key={v}>
          <input type="radio" name={name} checked={value === v} onChange={() => onChoose(v)} />
          {word}
        </label>
      ))}
    </fieldset>
  )
}
