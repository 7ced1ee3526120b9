import { useQuery } from '@tanstack/react-query'
import { Link, useParams, useSearch } from '@tanstack/react-router'
import { lazy, Suspense } from 'react'
import { ApiFault, type TypeDetail } from '#api'
import { typeQuery, useScreenTitle } from '#web/live'
import { NotThere, Waiting } from '#web/shell'
import { Prose, whenText } from '#web/typeset'
import { Explained } from './explained.tsx'
import { kindInFull } from './glance.ts'
import { LeadDrawing } from './lead-drawing.tsx'
import { GainRanksTable, LimitsTable } from './limits-table.tsx'
import { RatingsList } from './ratings-list.tsx'
import { StandIns } from './stand-ins.tsx'
import './type.css'

const TypeEditor = lazy(() => import('./type-editor.tsx').then((m) => ({ default: m.TypeEditor })))

/** One part type: its limits at their conditions, its leads, where it all comes from. */
export function TypeScreen() {
  const { type } = useParams({ strict: false }) as { readonly type: string }
  const { edit } = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const { data, error } = useQuery(typeQuery(type))
  useScreenTitle(edit === undefined ? data?.partType.type : undefined)
  if (error instanceof ApiFault && error.status === 404) return <NoSuchType type={type} sentence={error.message} />
  if (error !== null) throw error
  if (data === undefined) return <Waiting />
  if (edit !== undefined)
    return (
      <Suspense fallback={<Waiting />}>
        <TypeEditor detail={data} />
      </Suspense>
    )
  return <TypePage detail={data} />
}

function TypePage({ detail }: { readonly detail: TypeDetail }) {
  const t = detail.partType
  return (
    <article className="screen">
      <header className="type-head">
        <div>
          <h1>{t.type}</h1>
          <p className="lead">
            {kindInFull(t)}
            {t.construction !== undefined && `, ${t.construction}`}
            {t.outline !== undefined && `, in ${t.outline}`}
            {t.use !== undefined && `. Made for: ${t.use}`}.
          </p>
          <Source detail={detail} />
        </div>
        <Actions detail={detail} />
      </header>
      {detail.note !== undefined && (
        <p className="said">
          <Prose text={detail.note} />
        </p>
      )}
      {t.trouble !== undefined && (
        <p className="said bad">
          <b>Known trouble.</b> <Prose text={t.trouble} />
        </p>
      )}
      {t.leads !== undefined && <LeadsPart detail={detail} />}
      <section className="spread">
        <h2>
          Limits <span className="soft">each counts at its conditions only</span>
        </h2>
        <div className="matter">
          <LimitsTable limits={t.limits} />
          {t.gainRanks !== undefined && <GainRanksTable ranks={t.gainRanks} type={t.type} />}
          {t.gainRanks === undefined && t.gainGroups !== undefined && (
            <p className="type-groups">
              <Prose text={t.gainGroups} />
            </p>
          )}
          {t.suffixes !== undefined && (
            <p className="type-groups">
              <Prose text={t.suffixes} />
            </p>
          )}
        </div>
      </section>
      <section className="spread">
        <h2>
          Ratings <span className="soft">never to be passed</span>
        </h2>
        <div className="matter">
          <RatingsList ratings={t.ratings} />
        </div>
      </section>
      {(t.family === 'bjt' || t.family === 'diode') && <StandIns type={t.type} />}
      <Explained detail={detail} />
      <Versions detail={detail} />
    </article>
  )
}

/** Where the record comes from, and plainly so where it is from memory. */
function Source({ detail }: { readonly detail: TypeDetail }) {
  const p = detail.partType.provenance
  const isMemory = p.kind === 'memory'
  return (
    <div className="type-source">
      <p className={isMemory ? 'type-memory' : 'soft'}>
        {detail.from === 'book' && 'Your own record. '}
        {isMemory ? (
          <>
            <b>From memory: check the datasheet.</b>
            {p.confidence === 'low' && ' These numbers are a guide only and condemn no part.'}
          </>
        ) : (
          <>
            Source: <Prose text={detail.source} />
          </>
        )}
      </p>
      {p.note !== undefined && (
        <p className="soft">
          <Prose text={p.note} />
        </p>
      )}
    </div>
  )
}

function Actions({ detail }: { readonly detail: TypeDetail }) {
  const { type } = detail.partType
  return (
    <div className="actions type-actions">
      <Link to="/run" search={{ type }} className="button first">
        Plan a run
      </Link>
      <Link to="/types/$type" params={{ type }} search={{ edit: '1' }} className="button">
        {detail.from === 'book' ? 'Edit' : 'Make it your own'}
      </Link>
      {detail.parts > 0 && (
        <Link to="/drawer" search={{ type }} className="word">
          {detail.parts === 1 ? '1 part' : `${detail.parts} parts`} in this book
        </Link>
      )}
    </div>
  )
}

function LeadsPart({ detail }: { readonly detail: TypeDetail }) {
  const { leads } = detail.partType
  if (leads === undefined) return null
  return (
    <section className="spread">
      <h2>Leads</h2>
      <div className="matter type-leads">
        <LeadDrawing leads={leads} />
        <div>
          {leads.order === 'verify' ? (
            <p className="type-order">Not settled</p>
          ) : (
            <p className="type-order">{leads.order.replaceAll('-', ' – ')}</p>
          )}
          <p className="soft">{leads.view}</p>
          {leads.caseConnected !== undefined && <p className="soft">Case connected to: {leads.caseConnected}</p>}
          {detail.leadDoubt !== undefined && <p className="said">{detail.leadDoubt}</p>}
        </div>
      </div>
    </section>
  )
}

function Versions({ detail }: { readonly detail: TypeDetail }) {
  if (detail.versions.length === 0) return null
  return (
    <section className="spread">
      <h2>Versions</h2>
      <ul className="matter">
        {detail.versions.map((v) => (
          <li key={v.version}>
            Version {v.version} <span className="soft">of {whenText(v.at)}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

const NoSuchType = ({ type, sentence }: { readonly type: string; readonly sentence: string }) => (
  <NotThere title="No such part type" say={sentence}>
    <Link to="/types" search={{ q: type }} className="button">
      Search for it
    </Link>
    <Link to="/types" search={{ new: '1' }} className="button">
      Describe it yourself
    </Link>
  </NotThere>
)
