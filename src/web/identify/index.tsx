import { Link } from '@tanstack/react-router'
import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react'
import {
  type ExtraTest,
  extraTests,
  type Identity,
  identifyPart,
  type LeadReading,
  meters,
  type NextTest,
  runnableAs,
} from '#core/identify'
import { useShortcut } from '#web/keys'
import { announce, useRemembered, useScreenTitle } from '#web/live'
import { Next, Why } from './answer.tsx'
import {
  asked,
  type Bench,
  bodyText,
  type Draft,
  emptyBench,
  emptyDraft,
  leadNames,
  meterOf,
  pressed,
  readingIn,
  settingTo,
  shownIn,
  testIn,
  withReading,
} from './bench.ts'
import { DrawnPart } from './drawn-part.tsx'
import { makeReady } from './make-ready.ts'
import { Ranking } from './ranking.tsx'
import { ReadingForm } from './reading-form.tsx'
import { Taken } from './taken.tsx'
import { TypesList } from './types-list.tsx'
import './identify.css'

/** What an unmarked part is, told from readings between its leads. */
export function IdentifyScreen() {
  useScreenTitle('What is this part?')
  const [bench, setBench] = useRemembered<Bench>('identify', emptyBench)
  const meter = meterOf(bench)
  // as it was before readings were struck out, till another is taken
  const [struck, setStruck] = useState<Bench>()
  const [draft, setDraft] = useState<Draft>(() => emptyDraft(meter))
  const field = useRef<HTMLInputElement>(null)
  const shown = useMemo(() => shownIn(draft, meter), [draft, meter])
  const typed = useMemo(() => readingIn(draft, shown), [draft, shown])
  const tried = useMemo(
    () => ({ ...bench, readings: typed === undefined ? bench.readings : withReading(bench.readings, typed) }),
    [bench, typed],
  )
  // the table of imagined parts is read after the screen stands, and typing never waits for the answer
  const later = useDeferredValue<Bench | undefined>(tried, undefined)
  const identity = useMemo(() => (later === undefined ? undefined : identified(later)), [later])
  const isTold = identity !== undefined && later !== undefined && later.readings.length > 0
  const isUntouched = identity !== undefined && tried.readings.length === 0
  useEffect(() => {
    let isWanted = isUntouched
    if (isWanted) void makeReady(bench, () => isWanted)
    return () => {
      isWanted = false
    }
  }, [bench, isUntouched])

  const put = (next: Draft): void => {
    setDraft(next)
    if (next.leads.length === 2) field.current?.focus()
  }
  /** The leads are free again, the meter stays as it is set, and the keys are the page's. */
  const letGo = (): void => {
    const free = settingTo(emptyDraft(meter), draft.setTo)
    setDraft(testIn(draft) === 'gain' ? { ...free, joined: draft.joined } : free)
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
  }
  const take = (): void => {
    if (typed === undefined) return
    setBench({ ...bench, readings: withReading(bench.readings, typed) })
    setStruck(undefined)
    letGo()
    announce('Taken down. Press the next two leads.')
  }
  const strike = (next: Bench): void => {
    if (bench.readings.length > 0) setStruck(bench)
    setBench(next)
  }
  const begin = (next: Bench): void => {
    strike(next)
    setDraft(emptyDraft(meterOf(next)))
  }
  useShortcut({ keys: 'Escape', says: 'Let the leads go, and leave the field.', group: 'Part' }, () => {
    letGo()
  })
  const putBack = (before: Bench): void => {
    setBench(before)
    setDraft(emptyDraft(meterOf(before)))
    setStruck(undefined)
    announce('What was struck out is back.')
  }
  const choose = (next: NextTest): void => put(asked(next, meter))
  useShortcut({ keys: 'n', says: 'Put the meter on as the next test asks.', group: 'Part' }, () => {
    if (identity?.next !== undefined) choose(identity.next)
  })
  return (
    <div className="screen identify">
      <header>
        <h1>What is this part?</h1>
        <p className="lead">
          Press two leads, red first, then black, and type what the meter shows.{' '}
          <span className="identify-keys">
            Keys <kbd>1</kbd> <kbd>2</kbd> <kbd>3</kbd> do as well.
          </span>
        </p>
      </header>
      <div className="identify-bench">
        <div>
          <Kind bench={bench} onBench={begin} />
          <DrawnPart
            count={bench.leads}
            chosen={draft.leads}
            body={isTold ? bodyText(identity) : '?'}
            names={isTold && identity.contradiction === undefined ? leadNames(identity) : {}}
            onPress={(lead) => put(pressed(draft, lead))}
          />
          <ReadingForm
            draft={draft}
            count={bench.leads}
            meter={meter}
            shown={shown}
            field={field}
            onDraft={setDraft}
            onTake={take}
          />
          <Also bench={bench} onBench={setBench} />
        </div>
        <div className="identify-answer" aria-busy={later !== tried}>
          <section aria-label="What it may be">
            {isTold ? (
              <Ranking identity={identity} />
            ) : (
              <p className="soft">Nothing is read yet: it may be anything.</p>
            )}
          </section>
          {identity !== undefined && (
            <section className="identify-next" aria-label="The next test">
              <h2>{isTold ? 'Next' : 'Begin with'}</h2>
              <Next identity={identity} isTold={isTold} onNext={choose} />
            </section>
          )}
          {isTold && <GoOn identity={identity} />}
        </div>
        <Taken
          readings={bench.readings}
          onReadings={(readings) => strike({ ...bench, readings })}
          onBack={struck === undefined ? undefined : () => putBack(struck)}
        />
      </div>
      {isTold && <Why identity={identity} />}
      {isTold && <Types identity={identity} readings={later.readings} />}
    </div>
  )
}

const identified = ({ readings, leads, also = [], ...bench }: Bench): Identity =>
  identifyPart(readings, { meter: meterOf(bench), leads, also })

const alsoSays: Readonly<Record<ExtraTest, string>> = {
  gain: 'measure gain, in a socket or by a tester',
  breakdown: 'put on 12 V through 100 kΩ, even where it costs a little gain',
}

/** Tests that can be made beside those of the meter. */
function Also({ bench, onBench }: { readonly bench: Bench; readonly onBench: (next: Bench) => void }) {
  const { also = [] } = bench
  return (
    <fieldset className="identify-also">
      <legend className="field-label">I can also</legend>
      {extraTests
        .filter((test) => test !== 'gain' || bench.leads === 3)
        .map((test) => (
          <label key={test} className="identify-check">
            <input
              type="checkbox"
              checked={also.includes(test)}
              onChange={(e) =>
                onBench({ ...bench, also: e.target.checked ? [...also, test] : also.filter((t) => t !== test) })
              }
            />
            {alsoSays[test]}
          </label>
        ))}
    </fieldset>
  )
}

/** How many leads, and what reads them. What was read with another meter, or of other leads, does not hold. */
function Kind({ bench, onBench }: { readonly bench: Bench; readonly onBench: (next: Bench) => void }) {
  const counts = [3, 2] as const
  return (
    <div className="identify-kind">
      <fieldset className="choice">
        <legend className="vh">Leads of the part</legend>
        {counts.map((leads) => (
          <label key={leads}>
            <input
              type="radio"
              name="leads"
              checked={bench.leads === leads}
              onChange={() => onBench({ ...bench, leads, readings: [] })}
            />
            {leads === 3 ? 'three leads' : 'two leads'}
          </label>
        ))}
      </fieldset>
      <fieldset className="choice">
        <legend className="vh">Meter</legend>
        {meters.map(({ name }) => (
          <label key={name}>
            <input
              type="radio"
              name="meter"
              checked={bench.meter === name}
              onChange={() => onBench({ ...bench, meter: name, readings: [] })}
            />
            {name} meter
          </label>
        ))}
      </fieldset>
    </div>
  )
}

/** On to a run sheet, where the part can be measured on one. */
function GoOn({ identity }: { readonly identity: Identity }) {
  const as = runnableAs(identity)
  if (as === undefined) return null
  const { family, polarity = '', material } = as
  return (
    <p className="actions">
      <Link to="/run" search={{ type: '', family, polarity, material }} className="button first">
        Plan a run for it
      </Link>
    </p>
  )
}

/** Below this, types on record would be guesses upon a guess. */
const likely = 0.5

function Types({ identity, readings }: { readonly identity: Identity; readonly readings: readonly LeadReading[] }) {
  const [best] = identity.hypotheses
  if (best === undefined || best.probability < likely || identity.contradiction !== undefined) return null
  return best.fault === 'none' ? <TypesList best={best} readings={readings} /> : null
}
