import { useQueries } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { useMemo, useState } from 'react'
import type { KeptCurve } from '#api'
import { compared, firstView, sweepsFor, type View, viewsOf } from '#core/curve'
import type { FitKind } from '#core/fit'
import { comparisonPlot, curvePlot } from '#report/curve'
import { type LinePlot, linePlot } from '#report/plot'
import { chosenTags, useScreenTitle } from '#web/live'
import { Plot } from '#web/plot'
import { Prose } from '#web/typeset'
import { curvesQuery } from './query.ts'
import { ViewChoice } from './view-choice.tsx'

/** More curves than this on one pair of axes can't be told apart. */
const mostCurves = 12

const kindWords: Readonly<Record<FitKind, string>> = {
  diode: 'diode',
  bjt: 'transistor',
  jfet: 'JFET',
  mosfet: 'MOS transistor',
}

/** Places at which curves are compared. */
const places = 80

/** Curves of several parts over each other: of those chosen in the drawer. */
export function CurvesScreen() {
  useScreenTitle('Curves')
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const tags = search.part !== undefined ? [search.part] : search.chosen === undefined ? [] : chosenTags()
  return (
    <div className="screen">
      <header>
        <h1>Curves</h1>
        <p className="lead">The newest curve of each part, one over the other.</p>
      </header>
      {tags.length === 0 ? <Teach /> : <Overlay tags={tags.slice(0, mostCurves)} left={tags.length - mostCurves} />}
    </div>
  )
}

const Teach = () => (
  <p>
    Choose parts in the <Link to="/drawer">drawer</Link> and press Curves. A curve is taken into the book on the page of
    its part.
  </p>
)

function Overlay({ tags, left }: { readonly tags: readonly string[]; readonly left: number }) {
  const found = useQueries({ queries: tags.map((tag) => curvesQuery(tag)) })
  const newest = found.map((f) => f.data?.at(-1))
  const isReady = found.every((f) => f.data !== undefined || f.error !== null)
  if (!isReady) return <p className="soft">One moment …</p>
  const curves = newest.filter((c) => c !== undefined)
  const kind = curves[0]?.curve.kind
  const same = curves.filter((c) => c.curve.kind === kind)
  const without = tags.filter((tag) => !same.some((c) => c.curve.name === tag))
  return (
    <>
      {same.length > 0 && <Drawn curves={same} />}
      {without.length > 0 && (
        <p className="soft">
          Without a curve{kind === undefined ? '' : ` of a ${kindWords[kind]}`}: {without.join(', ')}.
        </p>
      )}
      {left > 0 && (
        <p className="soft">
          The first {mostCurves} of {left + mostCurves} chosen parts are drawn.
        </p>
      )}
    </>
  )
}

function Drawn({ curves }: { readonly curves: readonly KeptCurve[] }) {
  const views = useMemo(() => viewsOfAll(curves), [curves])
  const [wish, setView] = useState<View>(() => firstView(curves[0]!.curve))
  const [isCompared, setCompared] = useState(false)
  const view = views.includes(wish) ? wish : views[0]
  const drawn = useMemo(
    () => (view === undefined ? undefined : drawnAs(curves, view, isCompared)),
    [curves, view, isCompared],
  )
  if (view === undefined || drawn === undefined) return <p>These curves have no view in common.</p>
  return (
    <>
      <div className="curve-choose">
        <ViewChoice name="view" views={views} view={view} onView={setView} />
        {curves.length > 1 && (
          <label className="check">
            <input type="checkbox" checked={isCompared} onChange={(e) => setCompared(e.target.checked)} /> show how far
            each is from {curves[0]!.curve.name}
          </label>
        )}
      </div>
      <figure className="figure">
        <Plot draw={(width) => linePlot(drawn.plot, { width })} widest={960} />
      </figure>
      {drawn.notes.map((n) => (
        <p className="soft small" key={n}>
          <Prose text={n} />
        </p>
      ))}
      <ul className="curve-parts">
        {curves.map((c) => (
          <li key={c.id}>
            <Link to="/parts/$tag" params={{ tag: c.curve.name }}>
              {c.curve.name}
            </Link>
          </li>
        ))}
      </ul>
    </>
  )
}

/** Views for which each of the curves holds something. */
const viewsOfAll = (curves: readonly KeptCurve[]): readonly View[] =>
  viewsOf(curves[0]!.curve).filter((v) => curves.every((c) => viewsOf(c.curve).includes(v)))

function drawnAs(
  curves: readonly KeptCurve[],
  view: View,
  isCompared: boolean,
): { readonly plot: LinePlot; readonly notes: readonly string[] } {
  const seen = curves.map(({ curve }) => ({ name: curve.name, sweeps: sweepsFor(curve, view) }))
  if (!isCompared || curves.length < 2) return { plot: curvePlot(seen, view), notes: [] }
  const found = compared(seen, { points: places, spacing: 'linear' })
  return { plot: comparisonPlot(seen, found, view), notes: found.notes }
}
