import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { type ComponentType, lazy, Suspense } from 'react'
import { ApiFault, type TesterDetail } from '#api'
import { testerQuery, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { NoSuchTester } from '#web/tester'
import { partsFor, type UpkeepPart, upkeepParts } from './parts.ts'
import './upkeep.css'

export interface UpkeepProps {
  readonly detail: TesterDetail
}

type Part = ComponentType<UpkeepProps>

const screens: Readonly<Record<UpkeepPart, Part>> = {
  health: lazy(() => import('./health-part.tsx').then((m) => ({ default: m.HealthPart }))),
  calibration: lazy(() => import('./calibration-part.tsx').then((m) => ({ default: m.CalibrationPart }))),
  standards: lazy(() => import('./standards-part.tsx').then((m) => ({ default: m.StandardsPart }))),
  agreement: lazy(() => import('./agreement-part.tsx').then((m) => ({ default: m.AgreementPart }))),
  hands: lazy(() => import('./hands-part.tsx').then((m) => ({ default: m.HandsPart }))),
  dial: lazy(() => import('./dial-part.tsx').then((m) => ({ default: m.DialPart }))),
  protection: lazy(() => import('./protection-part.tsx').then((m) => ({ default: m.ProtectionPart }))),
  cells: lazy(() => import('./cells-part.tsx').then((m) => ({ default: m.CellsPart }))),
}

/** The upkeep of a tester: what its readings are worth, and what one does to know it. */
export function UpkeepScreen() {
  const { id, part: asked = 'health' } = useParams({ strict: false }) as { readonly id: string; readonly part?: string }
  const { data, error } = useQuery(testerQuery(id))
  const part = data === undefined ? undefined : partsFor(data.tester).find((p) => p === asked)
  useScreenTitle(data && `${data.tester.name}, ${upkeepParts[part ?? 'health'].toLowerCase()}`)
  if (error instanceof ApiFault && error.status === 404) return <NoSuchTester id={id} />
  if (error !== null) throw error
  if (data === undefined) return <Waiting />
  const { tester } = data
  const Screen = screens[part ?? 'health']
  return (
    <article className="screen upkeep">
      <header>
        <p className="upkeep-of">
          <Link to="/testers/$id" params={{ id }}>
            {tester.name}
          </Link>
        </p>
        <h1>{upkeepParts[part ?? 'health']}</h1>
      </header>
      <nav className="upkeep-nav" aria-label={`Upkeep of ${tester.name}`}>
        {partsFor(tester).map((p) => (
          <Link
            key={p}
            to="/testers/$id/upkeep/$part"
            params={{ id, part: p }}
            aria-current={p === (part ?? 'health') ? 'page' : undefined}
          >
            {upkeepParts[p]}
          </Link>
        ))}
      </nav>
      <Suspense fallback={<Waiting />}>
        <Screen key={`${tester.id} ${part}`} detail={data} />
      </Suspense>
    </article>
  )
}
