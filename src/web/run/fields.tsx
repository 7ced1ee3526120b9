import type { Asked } from './asked.ts'

interface UnmarkedProps {
  readonly asked: Asked
  readonly set: (change: Partial<Asked>) => void
}

/** What one may know of a part whose marking is gone. */
export function Unmarked({ asked, set }: UnmarkedProps) {
  return (
    <>
      <Choice
        legend="Kind"
        name="family"
        value={asked.family}
        words={{ bjt: 'transistor', diode: 'diode' }}
        onChange={(family) => set({ family })}
      />
      {asked.family !== 'diode' && (
        <Choice
          legend="Polarity, if you know it"
          name="polarity"
          value={asked.polarity}
          words={{ '': 'not known', NPN: 'NPN', PNP: 'PNP' }}
          onChange={(polarity) => set({ polarity })}
        />
      )}
      <Choice
        legend="Material, if you know it"
        name="material"
        value={asked.material}
        words={{ '': 'not known', Ge: 'germanium', Si: 'silicon' }}
        onChange={(material) => set({ material })}
      />
    </>
  )
}

interface ChoiceProps {
  readonly legend: string
  readonly name: string
  readonly value: string
  readonly words: Readonly<Record<string, string>>
  readonly onChange: (value: string) => void
}

function Choice({ legend, name, value, words, onChange }: ChoiceProps) {
  return (
    <fieldset className="field choice-field">
      <legend className="field-label">{legend}</legend>
      <div className="choice">
        {Object.entries(words).map(([key, word]) => (
          <label key={key}>
            <input type="radio" name={name} value={key} checked={value === key} onChange={() => onChange(key)} />
            {word}
          </label>
        ))}
      </div>
    </fieldset>
  )
}
