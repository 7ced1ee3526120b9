import type { ResistorChange } from '#core/stage'
import { Plain } from '#web/typeset'

/** Rows of a table of resistors: before and after. */
export const ChangeRows = ({ changes }: { readonly changes: readonly ResistorChange[] }) =>
  changes.map((c) => (
    <tr key={c.ref}>
      <th scope="row">{c.ref}</th>
      <td className="n">
        <Plain value={c.fromOhm} unit="ohm" digits={3} />
      </td>
      <td className="n">
        <Plain value={c.toOhm} unit="ohm" digits={3} />
      </td>
    </tr>
  ))
