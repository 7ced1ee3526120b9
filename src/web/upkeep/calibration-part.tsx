import { useDeferredValue, useMemo, useState } from 'react'
import { ApiFault } from '#api'
import { type Calibration, readoutName, readoutsOf, type Tester, writtenCalibration } from '#core/tester'
import { addToList } from '#core/text'
import { type Calibrated, type CalibrationHead, calibrate, calibrateAgain } from '#core/upkeep'
import { certificateSheet } from '#report/sheet'
import { api, queryClient, queryKeys, sayDone, useRemembered } from '#web/live'
import { bookText } from '#web/typeset'
import { attempt } from './attempt.ts'
import { CalibrationHeadFields, type HeadTyped, headOf, noHead } from './calibration-head.tsx'
import { type Line, type LinesRead, laidOut, readLines } from './calibration-lines.ts'
import { CalibrationSheet } from './calibration-sheet.tsx'
import { FaultList } from './faults.tsx'
import { SheetView } from './sheet-view.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

/** What one typed of each range, and span of the gain dial, by its name. */
type AllLines = Readonly<Record<string, readonly Line[]>>

/** A tester held against a reference, range by range, and its gain dial span by span. */
export function CalibrationPart({ detail }: UpkeepProps) {
  const { tester } = detail
  const readouts = readoutsOf(tester)
  const [chosen, setChosen] = useRemembered(`calibrated-range/${tester.id}`, () => tester.ranges[0]?.id ?? '')
  const [typed, setTyped] = useRemembered<AllLines>(`calibration/${tester.id}`, () => ({}))
  const [head, setHead] = useRemembered<HeadTyped>(`calibration-head/${tester.id}`, () => noHead)
  const readout = readouts.find((r) => readoutName(r) === chosen) ?? readouts[0]
  const name = readout === undefined ? '' : readoutName(readout)
  const later = useDeferredValue(typed)
  const read = useMemo(() => readAll(tester, later), [tester, later])
  const lines = typed[name] ?? []
  const own = read.get(name)
  const setLines = (l: readonly Line[]): void => setTyped({ ...typed, [name]: l })
  const headRead = useMemo(() => headOf(head), [head])
  const done = useMemo(
    () => (headRead.ok ? calibrated(tester, read, headRead.value) : undefined),
    [tester, read, headRead],
  )
  if (readout === undefined) return <p>It has no range.</p>
  return (
    <>
      <section className="spread">
        <h2>
          Readings <span className="soft">against a reference</span>
        </h2>
        <div className="matter">
          <div className="upkeep-choose">
            <label className="field">
              <span className="field-label">Range</span>
              <select className="select" value={name} onChange={(e) => setChosen(e.target.value)}>
                {readouts.map(readoutName).map((one) => (
                  <option key={one} value={one}>
                    {bookText(one)}
                    {(read.get(one)?.points.length ?? 0) > 0 && `, ${read.get(one)!.points.length} readings`}
                  </option>
                ))}
              </select>
            </label>
            {lines.every((l) => l.shown.trim() === '') ? (
              <button type="button" className="word" onClick={() => setLines(laidOut(readout))}>
                Lay out five points, up and down
              </button>
            ) : (
              <button type="button" className="word" onClick={() => setLines([])}>
                Empty {bookText(name)}
              </button>
            )}
          </div>
          <CalibrationSheet
            tester={tester}
            readout={readout}
            lines={lines}
            read={own?.lines ?? []}
            onLines={setLines}
          />
          {own?.fault !== undefined && <p className="field-fault">{own.fault}</p>}
        </div>
      </section>
      <section className="spread">
        <h2>About it</h2>
        <div className="matter">
          <CalibrationHeadFields typed={head} read={headRead} onTyped={setHead} />
        </div>
      </section>
      <section className="spread">
        <h2>Certificate</h2>
        <div className="matter">
          {done === undefined ? (
            <p className="soft">
              Type three readings or more, at different places of the scale. Up and down tells friction as well.
            </p>
          ) : done.ok ? (
            <Certificate detail={detail} done={done.value} onKept={() => setTyped({})} />
          ) : (
            <FaultList faults={done.faults} />
          )}
        </div>
      </section>
      <Kept tester={tester} />
    </>
  )
}

function readAll(tester: Tester, typed: AllLines): ReadonlyMap<string, LinesRead> {
  return new Map(
    readoutsOf(tester).map((r) => {
      const name = readoutName(r)
      return [name, readLines(tester, r, typed[name] ?? [])]
    }),
  )
}

function calibrated(tester: Tester, read: ReadonlyMap<string, LinesRead>, head: CalibrationHead) {
  const readings = readoutsOf(tester).flatMap((r) => {
    const points = read.get(readoutName(r))?.points ?? []
    const named = { range: r.id, ...(r.unit === '1' ? { unit: r.unit } : {}) }
    return points.length === 0 ? [] : [{ ...named, points }]
  })
  return readings.length === 0 ? undefined : attempt(() => calibrate(tester, readings, head))
}

interface CertificateProps extends UpkeepProps {
  readonly done: Calibrated
  readonly onKept: () => void
}

/** What came of it, and its place in the description of the tester. */
function Certificate({ detail, done, onKept }: CertificateProps) {
  const { tester, description } = detail
  const [faults, setFaults] = useState<readonly string[]>([])
  const keep = async (): Promise<void> => {
    const text = addToList(description, 'calibrations', writtenCalibration(tester, done.calibration))
    try {
      const saved = await api.saveTester(text)
      await queryClient.invalidateQueries({ queryKey: queryKeys.testers })
      const say = `The calibration of ${done.calibration.date} is kept, as version ${saved.version}. It corrects readings from then on; runs before keep theirs.`
      sayDone({ say, ...(saved.edit === undefined ? {} : { edit: saved.edit }) })
      onKept()
    } catch (error) {
      if (!(error instanceof ApiFault)) throw error
      setFaults(error.faults.map((f) => f.sentence))
    }
  }
  return (
    <>
      <p className="actions upkeep-keep">
        <button type="button" className="button first" onClick={() => void keep()}>
          Keep it with the tester
        </button>
        <span className="soft small">A new version of its description; it can be undone.</span>
      </p>
      {faults.length > 0 && <FaultList faults={faults} />}
      <SheetView sheet={certificateSheet(tester, done)} file={`${tester.id}-${done.calibration.date}`} />
    </>
  )
}

/** Calibrations that were kept, each with its certificate. */
function Kept({ tester }: { readonly tester: Tester }) {
  const all = (tester.calibrations ?? []).toReversed()
  const [open, setOpen] = useState<string>()
  if (all.length === 0) return null
  return (
    <section className="spread upkeep-kept">
      <h2>Kept</h2>
      <ul className="matter">
        {all.map((c) => (
          <li key={c.date}>
            <button
              type="button"
              className="word"
              aria-expanded={open === c.date}
              onClick={() => setOpen(open === c.date ? undefined : c.date)}
            >
              {c.date}
            </button>{' '}
            <span className="soft">
              {c.ranges.map((r) => readoutName({ id: r.range, unit: r.unit ?? 'A' })).join(', ')}
              {c.due !== undefined && `; due again on ${c.due}`}
            </span>
            {open === c.date && <KeptCertificate tester={tester} calibration={c} />}
          </li>
        ))}
      </ul>
    </section>
  )
}

function KeptCertificate({ tester, calibration }: { readonly tester: Tester; readonly calibration: Calibration }) {
  const again = useMemo(() => attempt(() => calibrateAgain(tester, calibration)), [tester, calibration])
  if (!again.ok) return <FaultList faults={again.faults} />
  if (again.value === undefined) return <p className="soft">Its readings were not kept.</p>
  return <SheetView sheet={certificateSheet(tester, again.value)} file={`${tester.id}-${calibration.date}`} />
}
