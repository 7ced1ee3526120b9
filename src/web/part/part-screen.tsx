import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { lazy, Suspense, useMemo, useState } from 'react'
import { ApiFault, type PartRun, type PartStory } from '#api'
import type { PlotModel } from '#report/model'
import { intervalPlot, scatterPlot } from '#report/plot'
import { api, queryKeys, testerQuery, useScreenTitle } from '#web/live'
import { Photos } from '#web/photos'
import { Plot } from '#web/plot'
import { NotThere, Waiting } from '#web/shell'
import { Prose, TemperatureChoice } from '#web/typeset'
import { Head } from './head.tsx'
import { JobsOf } from './jobs-of.tsx'
import { Readings } from './readings.tsx'
import { DoubtOf, Results } from './results.tsx'
import { SaidOf } from './said.tsx'
import { historyPlots, type Told, toldBy } from './story.ts'
import { dayText, timeText } from './words.ts'

/** Curves come with the laws of the parts, which the rest of the screen does without. */
const PartCurves = lazy(async () => ({ default: (await import('#web/curve')).PartCurves }))

/** One part with its story. */
export function PartScreen() {
  const { tag = '' } = useParams({ strict: false }) as { tag?: string }
  const { data, error } = useQuery({ queryKey: queryKeys.part(tag), queryFn: () => api.part(tag) })
  useScreenTitle(data?.part.tag)
  if (error instanceof ApiFault && error.status === 404) return <NoSuchPart tag={tag} />
  if (data === undefined && error !== null) throw error
  return data === undefined ? <Waiting /> : <Story key={tag} story={data} />
}

/** A tag that is in no part of the book: it may have been mistyped, or be of a part that is still to be read. */
const NoSuchPart = ({ tag }: { readonly tag: string }) => (
  <NotThere title="No such part" say={`No part of this book has the tag “${tag}”.`}>
    <Link to="/run" search={{ tag }} className="button">
      Read it in a run
    </Link>
    <Link to="/drawer" className="button">
      Look in the drawer
    </Link>
  </NotThere>
)

function Story({ story }: { readonly story: PartStory }) {
  const [runId, setRunId] = useState(story.runs[0]?.run.id)
  const [at25, setAt25] = useState(false)
  const run = story.runs.find((r) => r.run.id === runId) ?? story.runs[0]
  const told = useTold(story, run)
  return (
    <div className="screen part">
      <Head story={story} told={told} />
      {told !== undefined && told.section.results.length > 0 && (
        <div className="part-choose">
          <TemperatureChoice at25={at25} onAt25={setAt25} />
          {story.runs.length > 1 && (
            <label className="beside">
              <span className="soft">of run</span>
              <select className="select" value={run?.run.id} onChange={(e) => setRunId(Number(e.target.value))}>
                {story.runs.map((r) => (
                  <option key={r.run.id} value={r.run.id}>
                    {r.run.id}, {dayText(r.run.startedAt)}, {r.run.testerName}
                  </option>
                ))}
              </select>
            </label>
          )}
        </div>
      )}
      {run === undefined && <NothingRead story={story} />}
      {told !== undefined && (
        <>
          {(told.section.doubts.length > 0 || told.section.trouble !== undefined) && (
            <section className="spread">
              <h2>To know</h2>
              <div className="matter">
                {told.section.trouble !== undefined && (
                  <p className="said">
                    <b>Known of this type.</b> <Prose text={told.section.trouble} />
                  </p>
                )}
                {told.section.doubts.map((d) => (
                  <DoubtOf key={d.say} doubt={d} />
                ))}
              </div>
            </section>
          )}
          {told.section.results.length > 0 && (
            <section className="spread">
              <h2>
                Parameters <span className="soft">± holds the true value 19 times in 20</span>
              </h2>
              <div className="matter">
                <Results section={told.section} at25={at25} />
              </div>
            </section>
          )}
          {told.plots.length > 0 && (
            <section className="spread">
              <h2>Against limits</h2>
              <div className="matter plots">
                {told.plots.map((p) => (
                  <PlotOf key={p.plot.title} model={p} />
                ))}
              </div>
            </section>
          )}
        </>
      )}
      <History story={story} at25={at25} />
      <section className="spread">
        <h2>Curves</h2>
        <div className="matter">
          <Suspense fallback={<p className="soft">One moment …</p>}>
            <PartCurves tag={story.part.tag} />
          </Suspense>
        </div>
      </section>
      <section className="spread">
        <h2>In the drawer</h2>
        <div className="matter">
          <SaidOf part={story.part} />
        </div>
      </section>
      <JobsOf tag={story.part.tag} />
      <section className="spread">
        <h2>Photos</h2>
        <div className="matter">
          <Photos
            of={story.part.tag}
            photos={story.photos}
            queryKey={queryKeys.part(story.part.tag)}
            onAdd={(picture, name) => api.addPhoto(story.part.tag, picture, name)}
          />
        </div>
      </section>
      {run !== undefined && (
        <section className="spread">
          <h2>
            Readings{' '}
            <span className="soft">
              run {run.run.id}, {run.run.testerName}
            </span>
          </h2>
          <div className="matter">
            <Readings tag={story.part.tag} run={run} />
            {run.notes.map((n) => (
              <p className="soft small" key={n}>
                {n}
              </p>
            ))}
          </div>
        </section>
      )}
      <Edits story={story} />
    </div>
  )
}

/** The report's words for a run. The tester is that of the run, as it was then. */
function useTold(story: PartStory, run: PartRun | undefined): Told | undefined {
  const tester = useQuery({
    ...testerQuery(run?.run.tester ?? '', run?.run.testerVersion),
    enabled: run !== undefined,
  })
  return useMemo(
    () => (run === undefined || tester.data === undefined ? undefined : toldBy(story, run, tester.data.tester)),
    [story, run, tester.data],
  )
}

function NothingRead({ story }: { readonly story: PartStory }) {
  return (
    <section className="spread">
      <h2>Parameters</h2>
      <p className="matter">
        Nothing was read of {story.part.tag} yet.{' '}
        <Link
          to="/run"
          search={{ tag: story.part.tag, ...(story.part.type === undefined ? {} : { type: story.part.type }) }}
        >
          Begin a run with it
        </Link>
        .
      </p>
    </section>
  )
}

function PlotOf({ model }: { readonly model: PlotModel }) {
  const draw = (width: number): string =>
    model.kind === 'interval' ? intervalPlot(model.plot, { width }) : scatterPlot(model.plot, { width })
  return (
    <figure className="figure">
      <Plot draw={draw} />
      <figcaption className="small">
        <Prose text={model.caption} />
      </figcaption>
    </figure>
  )
}

function History({ story, at25 }: { readonly story: PartStory; readonly at25: boolean }) {
  const plots = useMemo(() => historyPlots(story, at25), [story, at25])
  if (plots.length === 0) return null
  return (
    <section className="spread">
      <h2>
        Through its runs <span className="soft">{at25 ? 'at 25 °C' : 'as read, each at its own temperature'}</span>
      </h2>
      <div className="matter plots">
        {plots.map((plot) => (
          <figure className="figure" key={plot.title}>
            <Plot draw={(width) => intervalPlot(plot, { width })} />
          </figure>
        ))}
      </div>
    </section>
  )
}

const fieldWords: Readonly<Record<string, string>> = { used_in: 'used in', usedIn: 'used in' }

function Edits({ story }: { readonly story: PartStory }) {
  if (story.edits.length === 0) return null
  return (
    <section className="spread">
      <h2>Changes</h2>
      <ul className="matter edits">
        {story.edits.toReversed().map((e, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the same change may come twice in one second
          <li key={`${e.at}${e.field}${i}`}>
            <span className="soft">{timeText(e.at)}</span> {fieldWords[e.field] ?? e.field}:{' '}
            {e.old !== undefined && (
              <>
                <del>{e.old}</del>{' '}
              </>
            )}
            <bdi>{e.new ?? 'taken away'}</bdi>
          </li>
        ))}
      </ul>
    </section>
  )
}
