import { useParams, useSearch } from '@tanstack/react-router'
import { Begin } from './begin.tsx'
import { NoSuchRun } from './no-such-run.tsx'
import { Pass } from './pass.tsx'
import './run.css'

export function RunScreen() {
  const { id } = useParams({ strict: false }) as { id?: string }
  const { tag } = useSearch({ strict: false }) as { tag?: string }
  if (id === undefined) return <Begin />
  const run = Number(id)
  return Number.isSafeInteger(run) ? <Pass key={run} id={run} tag={tag} /> : <NoSuchRun id={id} />
}
