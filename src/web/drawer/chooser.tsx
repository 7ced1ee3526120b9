import { parameterName } from '#report/model'
import { LetterSymbol } from '#web/typeset'
import { type Column, type Prefixed, unitsOf } from './columns.ts'
import type { Parts } from './parts.ts'

interface Props {
  readonly parts: Parts
  readonly all: readonly Column[]
  readonly shown: readonly string[]
  readonly onShown: (shown: readonly string[]) => void
  readonly units: ReadonlyMap<string, Prefixed>
  readonly onUnit: (symbol: string, power: number) => void
}

/** Which columns are shown, and in which unit. */
export function ColumnChooser({ parts, all, shown, onShown, units, onUnit }: Props) {
  const toggle = (id: string): void =>
    onShown(
      shown.includes(id)
        ? shown.filter((s) => s !== id)
        : all.map((c) => c.id).filter((c) => c === id || shown.includes(c)),
    )
  return (
    <details className="chooser">
      <summary>Columns</summary>
      <div className="chooser-sheet">
        {all
          .filter((c) => c.kind !== 'tag')
          .map((c) => (
            <div key={c.id} className="chooser-line">
              <label className="check">
                <input type="checkbox" checked={shown.includes(c.id)} onChange={() => toggle(c.id)} />{' '}
                {c.kind === 'value' ? (
                  <>
                    <LetterSymbol of={c.id} /> <span className="soft small">{parameterName(c.id)}</span>
                  </>
                ) : (
                  c.name
                )}
              </label>
              {c.kind === 'value' && <UnitSelect {...{ parts, units, onUnit }} symbol={c.id} />}
            </div>
          ))}
      </div>
    </details>
  )
}

interface UnitProps {
  readonly parts: Parts
  readonly symbol: string
  readonly units: ReadonlyMap<string, Prefixed>
  readonly onUnit: (symbol: string, power: number) => void
}

function UnitSelect({ parts, symbol, units, onUnit }: UnitProps) {
  const list = unitsOf(parts.symbols.get(symbol)!.unit)
  if (list.length < 2) return null
  return (
    <select
      className="select chooser-unit"
      aria-label={`Unit of ${symbol.replace('_', ' ')}`}
      value={units.get(symbol)!.power}
      onChange={(e) => onUnit(symbol, Number(e.target.value))}
    >
      {list.map((u) => (
        <option key={u.power} value={u.power}>
          {u.text}
        </option>
      ))}
    </select>
  )
}
