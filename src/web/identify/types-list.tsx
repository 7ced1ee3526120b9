import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useMemo, useState } from 'react'
import {
  type AlsoKnown,
  type Candidate,
  candidateTypes,
  type IdentifiedAs,
  type LeadReading,
  type Marking,
  measuredIn,
} from '#core/identify'
import { parseValue, type Unit } from '#core/quantity'
import { heldTypesQuery, typesQuery } from '#web/live'
import { LetterSymbol, Prose, sureText } from '#web/typeset'

interface Props {
  readonly best: IdentifiedAs
  readonly readings: readonly LeadReading[]
}

/** Part types on record that it may be, narrowed by what else is known of it. */
export function TypesList({ best, readings }: Props) {
  const { data } = useQuery(typesQuery)
  const held = useQuery(heldTypesQuery).data
  const [gain, setGain] = useState('')
  const [leakage, setLeakage] = useState('')
  const [outline, setOutline] = useState('')
  const [marking, setMarking] = useState('')
  const found = useMemo(() => {
    if (data === undefined) return undefined
    const inDrawer = new Map((held?.types ?? []).map((t) => [t.type, t.parts]))
    const typed = knownOf({ gain, leakage, outline, marking })
    return candidateTypes(best, data.types, { ...measuredIn(best, readings), ...typed, inDrawer })
  }, [best, readings, data, held, gain, leakage, outline, marking])
  if (found === undefined) return null
  return (
    <section className="spread">
      <h2>Types it may be</h2>
      <div className="matter">
        <p>{found.say}</p>
        {found.prior !== undefined && <p>{found.prior}</p>}
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
          <KnownField label="What stands on it" value={marking} onValue={setMarking} placeholder="OC72, 71" />
        </div>
        {found.marking !== undefined && <Marked marking={found.marking} />}
        {found.types.length > 0 && <Listed types={found.types} />}
        <RunAs best={found.types[0]} />
      </div>
    </section>
  )
}

/** Share from which a type is worth a run of its own. */
const worthTrying = 0.5

/** On to the run sheet of a type that stands out. */
function RunAs({ best }: { readonly best: Candidate | undefined }) {
  if (best === undefined || best.share < worthTrying) return null
  return (
    <p className="actions">
      <Link to="/run" search={{ type: best.type }} className="button">
        Plan a run as {best.type}
      </Link>
    </p>
  )
}

function Listed({ types }: { readonly types: readonly Candidate[] }) {
  return (
    <ol className="identify-types" aria-label="Types, likeliest first">
      {types.map((t) => (
        <li key={t.type}>
          <span className="identify-share">{sureText(t.share)}</span>
          <Link to="/types/$type" params={{ type: t.type }}>
            {t.type}
          </Link>
          <span className="soft">
            <Prose text={t.because.join(', ')} />
          </span>
        </li>
      ))}
    </ol>
  )
}

/** What the schemes of type numbers make of a marking. */
function Marked({ marking: { says, against } }: { readonly marking: Marking }) {
  return (
    <section className="identify-marked" aria-label="What the marking tells">
      {against !== undefined && <p className="said bad">{against}</p>}
      {says.map((s) => (
        <p key={s} className="small">
          {s}
        </p>
      ))}
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

interface Typed {
  readonly gain: string
  readonly leakage: string
  readonly outline: string
  readonly marking: string
}

function knownOf(typed: Typed): AlsoKnown {
  const [gain, leakA] = [above0(typed.gain, '1'), above0(typed.leakage, 'A')]
  const [outline, marking] = [typed.outline.trim(), typed.marking.trim()]
  return {
    ...(gain === undefined ? {} : { gain }),
    ...(leakA === undefined ? {} : { leakA }),
    ...(outline === '' ? {} : { outline }),
    ...(marking === '' ? {} : { marking }),
  }
}
