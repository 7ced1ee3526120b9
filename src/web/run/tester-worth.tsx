import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { healthQuery } from '#web/live'

/** What speaks against a tester before one begins; nothing where nothing does. */
export function TesterWorth({ id }: { readonly id: string }) {
  const { data } = useQuery(healthQuery)
  const own = data?.find((t) => t.tester === id)
  if (own?.word !== 'not trusted') return null
  return (
    <p className="said small begin-worth" role="status">
      {own.say}{' '}
      <Link to="/testers/$id/upkeep" params={{ id }}>
        See why
      </Link>
    </p>
  )
}
