import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { api, queryKeys } from '#web/live'

/** Jobs a part has to do with; nothing where there are none. */
export function JobsOf({ tag }: { readonly tag: string }) {
  const { data } = useQuery({ queryKey: [...queryKeys.part(tag), 'jobs'], queryFn: () => api.jobsOfPart(tag) })
  if (data === undefined || data.length === 0) return null
  return (
    <section className="spread">
      <h2>Jobs</h2>
      <ul className="matter">
        {data.map(({ job, name, ref, as }) => (
          <li key={`${job} ${ref} ${as}`}>
            <span className="soft">{as === 'reserved' ? 'reserved for' : `${as} in`}</span>{' '}
            <Link to="/jobs/$id" params={{ id: String(job) }} search={ref === undefined ? {} : { ref }}>
              {name}
              {ref !== undefined && `, ${ref}`}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}
