import { useDeferredValue, useMemo, useState } from 'react'
import { ApiFault } from '#api'
import { type Calibration, type Tester, writtenCalibration } from '#core/tester'
import { addToList } from '#core/text'
import { type Calibrated, type CalibrationHead, calibrate, calibrateAgain } from '#core/upkeep'
import { certificateSheet } from '#report/sheet'
import { api, queryClient, queryKeys, sayDone, useRemembered } from '#web/live'
import { attempt } from './attempt.ts'
import { CalibrationHeadFields, type HeadTyped, headOf, noHead } from './calibration-head.tsx'
import { type Line, type LinesRead, laidOut, readLines } from './calibration-lines.ts'
import { CalibrationSheet } from './calibration-sheet.tsx'
import { FaultList } from './faults.tsx'
import { SheetView } from './sheet-view.tsx'
import type { UpkeepProps } from './upkeep-screen.tsx'

/** What one typed of each range. */
type AllLines = Readonly<Record<string, readonly Line[]>>

/** A tester held against a reference, range by range. */
export function CalibrationPart({ detail }: UpkeepProps) {
  const { tester } = detail
  const [rangeId, setRange] = useRemembered(`calibrated-range/${tester.id}`, () => tester.ranges[0]?.id ?? '')
  const [typed, setTyped] = useRemembered<AllLines>(`calibration/${tester.id}`, () => ({}))
  const [head, setHead] = useRemembered<HeadTyped>(`calibration-head/${tester.id}`, () => noHead)
  const range = tester.ranges.find((r) => r.id === rangeId) ?? tester.ranges[0]
  const later = useDeferredValue(typed)
  const read = useMemo(() => readAll(tester, later), [tester, later])
  const lines = (range && typed[range.id]) ?? []
  const own = range === undefined ? undefined : read.get(range.id)
  const setLines = (l: readonly Line[]): void => setTyped({ ...typed, [range!.id]: l })
  const headRead = useMemo(() => headOf(head), [head])
  const done = useMemo(
    () => (headRead.ok ? calibrated(tester, read, headRead.value) : undefined),
    [tester, read, headRead],
  )
  if (range === undefined) return <p>It has no range.</p>
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
              <select className="select" value={range.id} onChange={(e) => setRange(e.target.value)}>
                {tester.ranges.map((r) => (
                  <option key={r.id} value={r.id}>
                    {r.id}
                    {(read.get(r.id)?.points.length ?? 0) > 0 && `, ${read.get(r.id)!.points.length} readings`}
                  </option>
                ))}
              </select>
            </label>
            {lines.every((l) => l.shown.trim() === '') ? (
              <button type="button" className="word" onClick={() => setLines(laidOut(range))}>
                Lay out five points, up and down
              </button>
            ) : (
              <button type="button" className="word" onClick={() => setLines([])}>
                Empty {range.id}
              </button>
            )}
          </div>
          <CalibrationSheet tester={tester} range={range} lines={lines} read={own?.lines ?? []} onLines={setLines} />
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
  return new Map(tester.ranges.map((r) => [r.id, readLines(tester, r, typed[r.id] ?? [])]))
}

function calibrated(tester: Tester, read: ReadonlyMap<string, LinesRead>, head: CalibrationHead) {
  const readings = [...read].flatMap(([range, { points }]) => (points.length === 0 ? [] : [{ range, points }]))
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
              {c.ranges.map((r) => r.range).join(', ')}
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
