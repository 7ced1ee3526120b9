import { useQuery } from '@tanstack/react-query'
import { useMemo, useState } from 'react'
import type { KeptCurve } from '#api'
import { firstView, sweepsFor, type View, viewsOf } from '#core/curve'
import { curvePlot } from '#report/curve'
import { linePlot } from '#report/plot'
import { Plot } from '#web/plot'
import { dayText } from '#web/typeset'
import { AddCurve } from './add-curve.tsx'
import { FitPart } from './fit-part.tsx'
import { curvesQuery } from './query.ts'
import { ViewChoice } from './view-choice.tsx'

/** The curves of a part: looked at, fitted, and taken into the book. */
export function PartCurves({ tag }: { readonly tag: string }) {
  const { data, error } = useQuery(curvesQuery(tag))
  const [chosen, setChosen] = useState<number>()
  if (error !== null) throw error
  if (data === undefined) return <p className="soft">One moment …</p>
  const kept = data.find((c) => c.id === chosen) ?? data.at(-1)
  return (
    <>
      {kept === undefined && <p>No curve of {tag} is in the book yet.</p>}
      {data.length > 1 && (
        <label className="beside">
          <span className="soft">curve</span>
          <select className="select" value={kept?.id} onChange={(e) => setChosen(Number(e.target.value))}>
            {data.toReversed().map((c) => (
              <option key={c.id} value={c.id}>
                {c.id}, {aboutText(c)}
              </option>
            ))}
          </select>
        </label>
      )}
      {kept !== undefined && <OneCurve key={kept.id} kept={kept} />}
      <AddCurve tag={tag} />
    </>
  )
}

/** When a curve was taken, from which file, how warm. */
function aboutText({ takenAt, at, file, temperatureC }: KeptCurve): string {
  const when = takenAt === undefined ? `kept ${dayText(at)}` : `taken ${dayText(takenAt)}`
  return [when, file, ...(temperatureC === undefined ? [] : [`${temperatureC} °C`])].join(', ')
}

function OneCurve({ kept }: { readonly kept: KeptCurve }) {
  const { curve } = kept
  const [view, setView] = useState<View>(() => firstView(curve))
  const [isFitted, setFitted] = useState(false)
  const views = useMemo(() => viewsOf(curve), [curve])
  const plot = useMemo(
    () => (views.includes(view) ? curvePlot([{ name: curve.name, sweeps: sweepsFor(curve, view) }], view) : undefined),
    [curve, views, view],
  )
  return (
    <>
      <div className="curve-choose">
        <ViewChoice name={`view-${kept.id}`} views={views} view={view} onView={setView} />
        <label className="check">
          <input type="checkbox" checked={isFitted} onChange={(e) => setFitted(e.target.checked)} /> fit its law
        </label>
      </div>
      {plot === undefined ? (
        <p className="soft">Its points make no sweep that could be drawn.</p>
      ) : (
        <figure className="figure">
          <Plot draw={(width) => linePlot(plot, { width })} />
          <figcaption className="small">
            {aboutText(kept)}
            {kept.note !== undefined && <>. {kept.note}</>}
          </figcaption>
        </figure>
      )}
      {isFitted && <FitPart kept={kept} />}
    </>
  )
}
