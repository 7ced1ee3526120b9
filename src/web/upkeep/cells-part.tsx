import { useDeferredValue, useMemo } from 'react'
import { type CellKind, cautionsFor, cellKinds, cellsDefaults, checkCells } from '#core/upkeep'
import { cellsSheet } from '#report/sheet'
import { useRemembered } from '#web/live'
import { attempt } from './attempt.ts'
import { Result } from './result.tsx'
import { aboveZero, Fields, readFields, type Specs, startOf } from './typed-fields.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

type Key = 'count' | 'rest' | 'loaded' | 'current' | 'resistor' | 'sag'

const field = { refuse: aboveZero } as const

const specs: Specs<Key> = {
  count: {
    label: 'Cells in series',
    unit: '1',
    start: '',
    hint: '6',
    refuse: (n) => (Number.isInteger(n) && n > 0 ? undefined : 'is no count of cells. Write how many stand in series.'),
  },
  rest: { ...field, label: 'At rest', unit: 'V', start: '', hint: '9.1 V' },
  loaded: { ...field, label: 'Under a load', unit: 'V', start: '', hint: '8.3 V' },
  current: { ...field, label: 'The load, as a current', unit: 'A', start: '', hint: '300 mA', isOptional: true },
  resistor: { ...field, label: 'or as a resistor across it', unit: 'ohm', start: '', hint: '27 ohm', isOptional: true },
  sag: { ...field, label: 'A test may lose', unit: '1', start: `${cellsDefaults.sag * 100} %` },
}

interface Typed {
  readonly texts: Readonly<Record<Key, string>>
  readonly kind: CellKind
}

/** A set of cells: what it still carries of the tests of its tester. */
export function CellsPart({ detail: { tester } }: UpkeepProps) {
  const [typed, setTyped] = useRemembered<Typed>(`cells/${tester.id}`, () => ({
    texts: startOf(specs),
    kind: 'alkaline',
  }))
  const later = useDeferredValue(typed)
  const read = useMemo(() => readFields(specs, later.texts), [later])
  const sheet = useMemo(() => {
    const { current, resistor } = read.values
    const load =
      current !== undefined ? { ampere: current.value } : resistor === undefined ? undefined : { ohm: resistor.value }
    if (!read.isWhole || load === undefined) return undefined
    const { count, rest, loaded, sag } = read.values
    return attempt(() =>
      cellsSheet(
        checkCells({
          kind: later.kind,
          count: count!.value,
          rest: rest!,
          restA: 0,
          loaded: loaded!,
          load,
          sag: sag!.value,
          currentsA: [],
          tester,
        }),
        cautionsFor({ cells: true }),
      ),
    )
  }, [tester, later, read])
  const isEmpty = typed.texts.count === '' && typed.texts.rest === '' && typed.texts.loaded === ''
  return (
    <>
      <section className="spread">
        <h2>
          The set <span className="soft">measured twice</span>
        </h2>
        <div className="matter upkeep-fields">
          <label className="field">
            <span className="field-label">Cells of</span>
            <select
              className="select"
              value={typed.kind}
              onChange={(e) => setTyped({ ...typed, kind: e.target.value as CellKind })}
            >
              {Object.entries(cellKinds).map(([kind, { name }]) => (
                <option key={kind} value={kind}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <Fields
            specs={specs}
            texts={typed.texts}
            faults={isEmpty ? {} : read.faults}
            onTexts={(texts) => setTyped({ ...typed, texts })}
          />
        </div>
      </section>
      <Result
        of={sheet}
        file={`${tester.id}-cells`}
        first="Measure the set at rest and under a load; the load is a current, or a resistor across the set."
      />
    </>
  )
}
