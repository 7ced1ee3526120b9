import { useDeferredValue, useMemo } from 'react'
import { checkGainDial, dialDefaults, dialTransistors, type GainBridge } from '#core/upkeep'
import { dialSheet } from '#report/sheet'
import { Field } from '#web/field'
import { useRemembered } from '#web/live'
import { attempt } from './attempt.ts'
import { Result } from './result.tsx'
import { aboveZero, Fields, readFields, type Specs, startOf } from './typed-fields.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

type Key = 'fixed' | 'drawnFor' | 'pot' | 'potFound' | 'end' | 'leakage' | 'cell' | 'detector' | 'division'

const field = { refuse: aboveZero } as const

const specs: Specs<Key> = {
  fixed: { ...field, label: 'The other resistor, as found', unit: 'ohm', start: '', hint: '1 kohm' },
  drawnFor: { ...field, label: 'The scale was drawn for', unit: 'ohm', start: '', hint: 'as found', isOptional: true },
  pot: { ...field, label: 'The pot, end to end', unit: 'ohm', start: '', hint: '100 kohm' },
  potFound: { ...field, label: 'The pot as found', unit: 'ohm', start: '', hint: 'as drawn', isOptional: true },
  end: { label: 'Left at its stop', unit: 'ohm', start: '0 ohm' },
  leakage: { label: 'Leakage, collector to emitter', unit: 'A', start: '10 uA' },
  cell: { ...field, label: 'Cells', unit: 'V', start: '4.5 V' },
  detector: { ...field, label: 'Needle with its resistor', unit: 'ohm', start: '1.1 kohm' },
  division: { ...field, label: 'A division of the needle', unit: 'A', start: '2 uA' },
}

interface Typed {
  readonly texts: Readonly<Record<Key, string>>
  readonly kind: GainBridge['kind']
  readonly dial: GainBridge['dial']
  readonly material: 'Ge' | 'Si'
  readonly marks: string
}

/** The gain dial: what its marks are worth, how sharply it nulls, and resistors that check it. */
export function DialPart({ detail: { tester } }: UpkeepProps) {
  const [typed, setTyped] = useRemembered<Typed>(`dial/${tester.id}`, () => ({
    texts: startOf(specs),
    kind: 'ratio',
    dial: 'base',
    material: 'Ge',
    marks: marksOf(tester),
  }))
  const later = useDeferredValue(typed)
  const read = useMemo(() => readFields(specs, later.texts), [later])
  const sheet = useMemo(() => (read.isWhole ? attempt(() => checked(later, read.values)) : undefined), [later, read])
  const set = (change: Partial<Typed>): void => setTyped({ ...typed, ...change })
  const isEmpty = typed.texts.fixed === '' && typed.texts.pot === ''
  return (
    <>
      <section className="spread">
        <h2>The bridge</h2>
        <div className="matter">
          <div className="upkeep-fields">
            <label className="field">
              <span className="field-label">The needle stands between</span>
              <select
                className="select"
                value={typed.kind}
                onChange={(e) => set({ kind: e.target.value as Typed['kind'], dial: 'base' })}
              >
                <option value="ratio">collector and base</option>
                <option value="divider">collector and a tap of the cells</option>
              </select>
            </label>
            <label className="field">
              <span className="field-label">The dial stands in the</span>
              <select
                className="select"
                value={typed.dial}
                disabled={typed.kind === 'divider'}
                onChange={(e) => set({ dial: e.target.value as Typed['dial'] })}
              >
                <option>base</option>
                <option>collector</option>
              </select>
            </label>
            <label className="field">
              <span className="field-label">Read with a part of</span>
              <select
                className="select"
                value={typed.material}
                onChange={(e) => set({ material: e.target.value as Typed['material'] })}
              >
                <option value="Ge">germanium</option>
                <option value="Si">silicon</option>
              </select>
            </label>
            <Field label="Marks to look at" value={typed.marks} onText={(text) => set({ marks: text })} />
            <Fields
              specs={specs}
              texts={typed.texts}
              faults={isEmpty ? {} : read.faults}
              onTexts={(texts) => set({ texts })}
            />
          </div>
        </div>
      </section>
      <Result
        of={sheet}
        file={`${tester.id}-gain-dial`}
        first="Measure the pot and the other resistor, cells out, and type them above."
      />
    </>
  )
}

/** Marks that lie on the tester's own dial. */
function marksOf({ gain }: UpkeepProps['detail']['tester']): string {
  const isOn = (mark: number): boolean => gain.kind !== 'dial' || gain.spans.some((s) => mark >= s.from && mark <= s.to)
  return dialDefaults.marks.filter(isOn).join(', ')
}

type Values = ReturnType<typeof readFields<Key>>['values']

function checked({ kind, dial, material, marks }: Typed, v: Values) {
  const value = (key: Key, otherwise = 0): number => v[key]?.value ?? otherwise
  const common = { emfV: value('cell'), baseEmitterV: dialDefaults.baseEmitterV[material], fixedOhm: value('fixed') }
  const bridge: GainBridge =
    kind === 'ratio'
      ? { kind, dial, ...common }
      : { kind, dial: 'base', ...common, tapFraction: dialDefaults.tapFraction, dividerOhm: dialDefaults.dividerOhm }
  const nominalOhm = value('pot')
  const done = checkGainDial({
    bridge,
    drawnForOhm: value('drawnFor', common.fixedOhm),
    tolerance: dialDefaults.tolerance,
    law: {
      kind: 'linear',
      nominalOhm,
      ohm: value('potFound', nominalOhm),
      endOhm: value('end'),
      linearity: dialDefaults.linearity,
    },
    marks: marks.split(/[,;\s]+/).flatMap((m) => (Number(m) > 0 ? [Number(m)] : [])),
    detectorOhm: value('detector'),
    divisionA: value('division'),
    readable: dialDefaults.readable,
    leakageA: value('leakage'),
    transistor: dialTransistors[material],
    ambientC: dialDefaults.ambientC,
  })
  return dialSheet(done, bridge, value('leakage'))
}
