import { useParams, useSearch } from '@tanstack/react-router'
import { Begin } from './begin.tsx'
import { Pass } from './pass.tsx'
import './run.css'

export function RunScreen() {
  const { id } = useParams({ strict: false }) as { id?: string }
  const { tag } = useSearch({ strict: false }) as { tag?: string }
  const run = Number(id)
  if (id === undefined || !Number.isSafeInteger(run)) return <Begin />
  return <Pass id={run} tag={tag} />
}
