import type { Resistances } from '#core/upkeep'
import { Plain } from '#web/typeset'
import { signedPercent } from './found-typed.ts'
import { rangeName, tight } from './tester-words.ts'

/** What a switch contact costs the high ranges, and what the leads lose there. */
export function FoundLeads({ resistances }: { readonly resistances: readonly Resistances[] }) {
  const hasLeads = resistances.some((r) => r.leadV !== undefined)
  return (
    <table className="found-leads">
      <thead>
        <tr>
          <th scope="col">Range</th>
          <th scope="col" className="n">
            Contact now
          </th>
          <th scope="col" className="n">
            Each mΩ more
          </th>
          {hasLeads && (
            <th scope="col" className="n">
              Leads lose
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {resistances.map(({ range, byContact, perMilliohm, leadV }) => (
          <tr key={range.id}>
            <th scope="row">{tight(rangeName(range.id))}</th>
            <td className="n">{byContact !== undefined && signedPercent(byContact)}</td>
            <td className="n">{perMilliohm !== undefined && signedPercent(perMilliohm)}</td>
            {hasLeads && <td className="n">{leadV !== undefined && <Plain value={leadV} unit="V" digits={2} />}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
