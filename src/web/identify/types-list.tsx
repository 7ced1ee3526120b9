import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useMemo, useState } from 'react'
import { type AlsoKnown, candidateTypes, type IdentifiedAs } from '#core/identify'
import { parseValue, type Unit } from '#core/quantity'
import { typesQuery } from '#web/live'
import { LetterSymbol, sureText } from '#web/typeset'

/** Part types on record that it may be, narrowed by what else is known of it. */
export function TypesList({ best }: { readonly best: IdentifiedAs }) {
  const { data } = useQuery(typesQuery)
  const [gain, setGain] = useState('')
  const [leakage, setLeakage] = useState('')
  const [outline, setOutline] = useState('')
  const found = useMemo(
    () => (data === undefined ? undefined : candidateTypes(best, data.types, knownOf({ gain, leakage, outline }))),
    [best, data, gain, leakage, outline],
  )
  if (found === undefined) return null
  return (
    <section className="spread">
      <h2>Types it may be</h2>
      <div className="matter">
        <p>{found.say}</p>
        <div className="identify-known">
          <KnownField label="Gain, if measured" value={gain} unit="1" onValue={setGain} placeholder="120" />
          <KnownField
            label={
              <>
                <LetterSymbol of="I_CBO" />, if measured
              </>
            }
            value={leakage}
            unit="A"
            onValue={setLeakage}
            placeholder="2 µA"
          />
          <KnownField label="Case" value={outline} onValue={setOutline} placeholder="TO-5" />
        </div>
        {found.types.length > 0 && (
          <ol className="identify-types" aria-label="Types, likeliest first">
            {found.types.map((t) => (
              <li key={t.type}>
                <span className="identify-share">{sureText(t.share)}</span>
                <Link to="/types/$type" params={{ type: t.type }}>
                  {t.type}
                </Link>
                <span className="soft">{t.because.join(', ')}</span>
              </li>
            ))}
          </ol>
        )}
      </div>
    </section>
  )
}

interface KnownFieldProps {
  readonly label: ReactNode
  readonly value: string
  /** Left out, it is a word. */
  readonly unit?: Unit
  readonly placeholder: string
  readonly onValue: (text: string) => void
}

function KnownField({ label, value, unit, placeholder, onValue }: KnownFieldProps) {
  const isBad = unit !== undefined && value.trim() !== '' && above0(value, unit) === undefined
  return (
    <label className="field">
      <span className="field-label">{label}</span>
      <input
        className="input"
        value={value}
        placeholder={placeholder}
        autoComplete="off"
        spellCheck={false}
        maxLength={20}
        aria-invalid={isBad}
        onChange={(e) => onValue(e.target.value)}
      />
      {isBad && <span className="field-fault">{`“${value}” is no value above 0. Write it as ${placeholder}.`}</span>}
    </label>
  )
}

function above0(text: string, unit: Unit): number | undefined {
  const parsed = parseValue(text, { unit })
  return parsed.ok && parsed.value > 0 ? parsed.value : undefined
}

function knownOf(typed: { readonly gain: string; readonly leakage: string; readonly outline: string }): AlsoKnown {
  const [gain, leakA] = [above0(typed.gain, '1'), above0(typed.leakage, 'A')]
  const outline = typed.outline.trim()
  return {
    ...(gain === undefined ? {} : { gain }),
    ...(leakA === undefined ? {} : { leakA }),
    ...(outline === '' ? {} : { outline }),
  }
}
