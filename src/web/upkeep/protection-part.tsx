import { useDeferredValue, useMemo } from 'react'
import { terminalOhm } from '#core/tester'
import { cautionsFor, type Drive, protection, protectionDefaults } from '#core/upkeep'
import { protectionSheet } from '#report/sheet'
import { useRemembered } from '#web/live'
import { bookText } from '#web/typeset'
import { attempt } from './attempt.ts'
import { Result } from './result.tsx'
import { aboveZero, Fields, readFields, type Specs, startOf } from './typed-fields.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

type Key = 'times' | 'source' | 'sourceOhm' | 'most' | 'bears'

interface Typed {
  readonly texts: Readonly<Record<Key, string>>
  readonly range: string
  readonly mistake: Drive['kind']
}

const field = { refuse: aboveZero } as const

/** Diodes across the movement: what they cost, and what they save. */
export function ProtectionPart({ detail: { tester } }: UpkeepProps) {
  const movement = tester.movement!
  const specs = useMemo(
    (): Specs<Key> => ({
      times: { ...field, label: 'Times full scale', unit: '1', start: String(protectionDefaults.bears) },
      source: { ...field, label: 'A voltage of', unit: 'V', start: '9 V' },
      sourceOhm: { ...field, label: 'with a resistance of', unit: 'ohm', start: '1 ohm' },
      most: {
        ...field,
        label: 'They may cost at full scale',
        unit: '1',
        start: `${Number((movement.classPercent * protectionDefaults.partOfClass).toPrecision(2))} %`,
      },
      bears: {
        ...field,
        label: 'The movement bears, times full scale',
        unit: '1',
        start: String(protectionDefaults.bears),
      },
    }),
    [movement],
  )
  const [typed, setTyped] = useRemembered<Typed>(`protection/${tester.id}`, () => ({
    texts: startOf(specs),
    range: tester.ranges[0]!.id,
    mistake: 'full-scale',
  }))
  const later = useDeferredValue(typed)
  const read = useMemo(() => readFields(specs, later.texts), [specs, later])
  const sheet = useMemo(() => {
    const range = tester.ranges.find((r) => r.id === later.range) ?? tester.ranges[0]!
    const value = (key: Key): number => read.values[key]?.value ?? 0
    const overload: Drive =
      later.mistake === 'full-scale'
        ? { kind: 'full-scale', times: value('times') }
        : { kind: 'source', emfV: value('source'), ohm: value('sourceOhm') }
    const asked = { range: range.id, overload, mostError: value('most'), bears: value('bears') }
    if (!read.isWhole) return undefined
    return attempt(() => {
      const found = protection({ ...asked, movement, range, temperaturesC: protectionDefaults.temperaturesC })
      const inside = terminalOhm(range.circuit, movement.coilOhm) ?? 0
      const exposure =
        overload.kind === 'source' ? { voltageV: overload.emfV, currentA: overload.emfV / (overload.ohm + inside) } : {}
      return protectionSheet(asked, found, cautionsFor(exposure))
    })
  }, [tester, movement, later, read])
  const set = (change: Partial<Typed>): void => setTyped({ ...typed, ...change })
  const only =
    typed.mistake === 'full-scale'
      ? (['times', 'most', 'bears'] as const)
      : (['source', 'sourceOhm', 'most', 'bears'] as const)
  return (
    <>
      <section className="spread">
        <h2>The mistake</h2>
        <div className="matter upkeep-fields">
          <label className="field">
            <span className="field-label">On range</span>
            <select className="select" value={typed.range} onChange={(e) => set({ range: e.target.value })}>
              {tester.ranges.map((r) => (
                <option key={r.id} value={r.id}>
                  {bookText(r.id)}
                </option>
              ))}
            </select>
          </label>
          <label className="field">
            <span className="field-label">It may get</span>
            <select
              className="select"
              value={typed.mistake}
              onChange={(e) => set({ mistake: e.target.value as Typed['mistake'] })}
            >
              <option value="full-scale">so many times full scale</option>
              <option value="source">a voltage at its terminals</option>
            </select>
          </label>
          <Fields
            specs={specs}
            texts={typed.texts}
            faults={read.faults}
            only={only}
            onTexts={(texts) => set({ texts })}
          />
        </div>
      </section>
      <Result of={sheet} file={`${tester.id}-protection`} first="Say what the mistake may be." />
    </>
  )
}
