import type { Resistances } from '#core/upkeep'
import { bookText, Plain } from '#web/typeset'
import { signedPercent } from './found-typed.ts'

/** What a switch contact costs the high ranges, and what the leads lose there. */
export function FoundLeads({ resistances }: { readonly resistances: readonly Resistances[] }) {
  const hasContacts = resistances.some((r) => r.byContact !== undefined)
  const hasLeads = resistances.some((r) => r.leadV !== undefined)
  const heads = [...(hasContacts ? ['Contact now', 'Each mΩ more'] : []), ...(hasLeads ? ['Leads lose'] : [])]
  if (heads.length === 0) return <p className="soft">Measure the leads to see what they lose.</p>
  return (
    <table className="found-leads">
      <thead>
        <tr>
          <th scope="col">Range</th>
          {heads.map((head) => (
            <th key={head} scope="col" className="n">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {resistances.map(({ range, byContact, perMilliohm, leadV }) => (
          <tr key={range.id}>
            <th scope="row">{bookText(range.id)}</th>
            {hasContacts && <td className="n">{byContact !== undefined && signedPercent(byContact)}</td>}
            {hasContacts && <td className="n">{perMilliohm !== undefined && signedPercent(perMilliohm)}</td>}
            {hasLeads && <td className="n">{leadV !== undefined && <Plain value={leadV} unit="V" digits={2} />}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
