import type { SheetTable } from '#report/sheet'
import { Said } from './said.tsx'

/** A cell as short as this stands on one line; a table with one as long as that is stacked where the page is narrow. */
const shortest = 14
const wordy = 40

/** Longer tables are folded: what they say stands above them. */
const longest = 30

/** A table of a sheet. */
export function TableView({ table: t }: { readonly table: SheetTable }) {
  const isLong = t.rows.length > longest
  const isWordy = t.rows.some((cells) => cells.some((c) => c.length >= wordy))
  const body = (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it is moved sideways by the keyboard where it is wider than the page
    <section className="scroll" tabIndex={0} aria-label={t.caption}>
      <table className={isWordy ? 'wordy' : undefined}>
        <caption className={isLong ? 'vh' : undefined}>{t.caption}</caption>
        <thead>
          <tr>
            {t.head.map((h, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the columns of a sheet stay where they are
              <th key={i} scope="col" className={numberClass(h)}>
                <Said text={nameOf(h)} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {t.rows.map((cells, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows of a sheet may be alike
            <Row key={i} head={t.head} cells={cells} />
          ))}
        </tbody>
      </table>
    </section>
  )
  if (!isLong) return body
  return (
    <details>
      <summary>
        {t.caption}, {t.rows.length} rows
      </summary>
      {body}
    </details>
  )
}

const numberClass = (head: string): string | undefined => (head.startsWith('>') ? 'n' : undefined)
const cellClass = (head: string | undefined, text: string): string | undefined =>
  numberClass(head ?? '') ?? (text.length <= shortest ? 'brief' : undefined)
const nameOf = (head: string): string => head.replace(/^>/, '')

interface RowProps {
  readonly head: readonly string[]
  readonly cells: readonly string[]
}

function Row({ head, cells: [first = '', ...rest] }: RowProps) {
  return (
    <tr>
      <th scope="row" className={cellClass(head[0], first)}>
        <Said text={first} />
      </th>
      {rest.map((text, i) => {
        const name = head[i + 1] ?? ''
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: the columns of a sheet stay where they are
          <td key={i} className={cellClass(name, text)} data-head={nameOf(name)}>
            {text !== '' && <Said text={text} />}
          </td>
        )
      })}
    </tr>
  )
}
