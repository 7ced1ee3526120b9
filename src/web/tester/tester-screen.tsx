import { useQuery } from '@tanstack/react-query'
import { Link, useParams, useSearch } from '@tanstack/react-router'
import { lazy, Suspense } from 'react'
import { ApiFault, type TesterDetail } from '#api'
import type { Range, Tester } from '#core/tester'
import { testerQuery, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { bookText, LetterSymbol, Plain, Prose, plainText } from '#web/typeset'
import { CoveragePart } from './coverage-part.tsx'
import { FoundScreen } from './found-screen.tsx'
import { NoSuchTester } from './no-such-tester.tsx'
import { ScaleFace } from './scale-face.tsx'
import { gainDoubtText, gainText, kindWords, movementText } from './tester-words.ts'
import { TroubleScreen } from './trouble-screen.tsx'
import { VersionsPart } from './versions-part.tsx'
import './tester.css'

const TesterEditor = lazy(() => import('./tester-editor.tsx').then((m) => ({ default: m.TesterEditor })))

/** One tester: what it is made of, and what it can and cannot measure. */
export function TesterScreen() {
  const { id } = useParams({ strict: false }) as { readonly id: string }
  const { edit, found, trouble } = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const { data, error } = useQuery(testerQuery(id))
  const hasMovement = data?.tester.movement !== undefined
  const isNamedWithin = edit !== undefined || (hasMovement && (found !== undefined || trouble !== undefined))
  useScreenTitle(isNamedWithin ? undefined : data?.tester.name)
  if (error instanceof ApiFault && error.status === 404) return <NoSuchTester id={id} />
  if (error !== null) throw error
  if (data === undefined) return <Waiting />
  if (edit !== undefined)
    return (
      <Suspense fallback={<Waiting />}>
        <TesterEditor detail={data} />
      </Suspense>
    )
  const { tester } = data
  if (hasMovement && found !== undefined) return <FoundScreen key={tester.id} tester={tester} />
  if (hasMovement && trouble !== undefined) return <TroubleScreen key={tester.id} tester={tester} />
  return <TesterPage detail={data} />
}

function TesterPage({ detail }: { readonly detail: TesterDetail }) {
  const t = detail.tester
  const movement = movementText(t)
  return (
    <article className="screen">
      <header className="tester-head">
        <div>
          <h1>{t.name}</h1>
          <p className="lead">
            {kindWords[t.kind]}
            {t.polarities.length > 0 && ` for ${t.polarities.join(' and ')}`}.{movement !== undefined && ` ${movement}`}
          </p>
          {t.note !== undefined && (
            <p className="soft">
              <Prose text={t.note} />
            </p>
          )}
        </div>
        <div className="actions">
          <Link to="/run" search={{ tester: t.id }} className="button first">
            Plan a run
          </Link>
          <Link to="/testers/$id" params={{ id: t.id }} search={{ edit: '1' }} className="button">
            {detail.from === 'book' ? 'Edit' : 'Make it your own'}
          </Link>
          <Link to="/testers/$id/upkeep" params={{ id: t.id }} className="button">
            Upkeep
          </Link>
          {t.movement !== undefined && (
            <>
              <Link to="/testers/$id" params={{ id: t.id }} search={{ found: '1' }} className="button">
                As found
              </Link>
              <Link to="/testers/$id" params={{ id: t.id }} search={{ trouble: '1' }} className="button">
                Find trouble
              </Link>
            </>
          )}
        </div>
      </header>
      <Faces tester={t} measures="current" word="Current" />
      <Faces tester={t} measures="voltage" word="Voltage" />
      <CoveragePart tester={t} />
      <section className="spread">
        <h2>Gain</h2>
        <div className="matter">
          <p>{gainText(t.gain)}</p>
          {gainDoubtText(t.gain) !== undefined && <p className="soft">{gainDoubtText(t.gain)}</p>}
          {t.gain.kind === 'dial' && <Spans gain={t.gain} />}
        </div>
      </section>
      <Supplies tester={t} />
      <Tests tester={t} />
      <Bounds tester={t} />
      <VersionsPart detail={detail} />
    </article>
  )
}

interface FacesProps {
  readonly tester: Tester
  readonly measures: Range['measures']
  readonly word: string
}

function Faces({ tester, measures, word }: FacesProps) {
  const ranges = tester.ranges.filter((r) => r.measures === measures)
  if (ranges.length === 0) return null
  return (
    <section className="spread">
      <h2>
        {word} <span className="soft">{ranges.length === 1 ? '1 range' : `${ranges.length} ranges`}</span>
      </h2>
      <div className="matter faces">
        {ranges.map((r) => (
          <ScaleFace key={r.id} tester={tester} range={r} />
        ))}
      </div>
    </section>
  )
}

function Spans({ gain }: { readonly gain: Extract<Tester['gain'], { kind: 'dial' }> }) {
  return (
    <ul className="tester-spans">
      {gain.spans.map((s) => (
        <li key={s.id}>
          <span className="soft">{s.id}</span> {s.from} to {s.to}
        </li>
      ))}
    </ul>
  )
}

function Supplies({ tester }: { readonly tester: Tester }) {
  if (tester.supplies.length === 0) return null
  return (
    <section className="spread">
      <h2>Supplies</h2>
      <ul className="matter tester-lines">
        {tester.supplies.map((s) => (
          <li key={s.id}>
            <span className="tester-line-name">{s.id}</span>
            <span className="quiet">
              {s.kind === 'cells' ? (
                <>
                  Cells of <Plain value={s.cellV} unit="V" />, taps{' '}
                  {s.taps.map((v, i) => (
                    <span key={v}>
                      {i > 0 && ', '}
                      {i === s.taps.length - 1 ? <Plain value={v} unit="V" /> : <span className="num">{v}</span>}
                    </span>
                  ))}
                  ; <Plain value={s.ohmPerCell} unit="ohm" /> a cell
                </>
              ) : (
                <>
                  From outside, {s.min} to <Plain value={s.max ?? 0} unit="V" /> through{' '}
                  <Plain value={s.ohmPerCell} unit="ohm" />
                </>
              )}
              , known to ± {Number((s.tolerance * 100).toPrecision(3))} %
              {s.maxA !== undefined && (
                <>
                  , at most <Plain value={s.maxA} unit="A" />
                </>
              )}
              .
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Tests({ tester }: { readonly tester: Tester }) {
  return (
    <section className="spread">
      <h2>Tests</h2>
      <ul className="matter tester-lines">
        {tester.tests.map((test, i) => (
          <li key={`${test.reads}${test.supply ?? ''}${test.ranges.join()}`}>
            <span className="tester-line-name">
              {tester.tests[i - 1]?.reads === test.reads ? (
                <span className="vh">{test.reads}</span>
              ) : test.reads === 'short' ? (
                'short check'
              ) : (
                <LetterSymbol of={test.reads} />
              )}
            </span>
            <span className="quiet">
              {test.ranges.length === 0 ? 'on the display' : `on ${test.ranges.map(bookText).join(', ')}`}
              <span className="soft">
                {test.supply !== undefined && `, from ${test.supply}`}
                {test.seriesOhm !== undefined && ` through ${plainText(test.seriesOhm, 'ohm')}`}
              </span>
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Bounds({ tester }: { readonly tester: Tester }) {
  return (
    <section className="spread">
      <h2>Safe limits</h2>
      <div className="matter">
        <p>
          Never above <Plain value={tester.limits.maxCurrentA} unit="A" /> and{' '}
          <Plain value={tester.limits.maxVoltageV} unit="V" />.
        </p>
        {tester.shortLooksLike !== undefined && (
          <p>
            <Prose text={tester.shortLooksLike} />
          </p>
        )}
        {tester.thermometer !== undefined && (
          <p className="soft">Its thermometer is known to {tester.thermometer.uC} K.</p>
        )}
      </div>
    </section>
  )
}
