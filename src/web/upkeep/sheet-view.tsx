import { coursePlot } from '#report/plot'
import { type Sheet, sheetHtml } from '#report/sheet'
import { Plot } from '#web/plot'
import { OutcomeShape } from '#web/typeset'
import { Said } from './said.tsx'
import { TableView } from './table-view.tsx'

interface Props {
  readonly sheet: Sheet
  /** Name of the file it may be saved as, without its ending. */
  readonly file: string
}

/** A sheet of upkeep: the same that the command line prints and writes. */
export function SheetView({ sheet: s, file }: Props) {
  return (
    <div className="upkeep-sheet">
      <div className="upkeep-lead" role="status">
        {s.lead.map((l) => (
          <p key={l.say}>
            {l.outcome !== undefined && (
              <>
                <OutcomeShape of={l.outcome} />{' '}
              </>
            )}
            <Said text={l.say} />
          </p>
        ))}
      </div>
      {s.facts.length > 0 && (
        <dl className="facts">
          {s.facts.map(([name, text]) => (
            <div key={name} className="upkeep-fact">
              <dt>{name}</dt>
              <dd>
                <Said text={text} />
              </dd>
            </div>
          ))}
        </dl>
      )}
      {s.blocks.map((b) => (
        <Block key={b.kind === 'prose' ? b.heading : b.caption} block={b} />
      ))}
      <Notes notes={s.notes} />
      <p className="actions upkeep-file">
        <button type="button" className="button" onClick={() => window.print()}>
          Print
        </button>
        <button type="button" className="button" onClick={() => save(s, file)}>
          Save as a file
        </button>
      </p>
    </div>
  )
}

function save(sheet: Sheet, file: string): void {
  const url = URL.createObjectURL(new Blob([sheetHtml(sheet)], { type: 'text/html' }))
  const link = document.createElement('a')
  link.href = url
  link.download = `${file}.html`
  link.click()
  URL.revokeObjectURL(url)
}

function Block({ block: b }: { readonly block: Sheet['blocks'][number] }) {
  switch (b.kind) {
    case 'table':
      return <TableView table={b} />
    case 'plot':
      return (
        <figure className="upkeep-plot">
          <Plot draw={(width) => coursePlot(b.plot, { width })} />
          <figcaption className="small soft">
            <Said text={b.caption} />
          </figcaption>
        </figure>
      )
    case 'prose':
      return (
        <section>
          <h2>{b.heading}</h2>
          {b.lines.map((l) => (
            <p key={l}>
              <Said text={l} />
            </p>
          ))}
        </section>
      )
  }
}

const Notes = ({ notes }: { readonly notes: readonly string[] }) => (
  <details className="upkeep-notes">
    <summary>How this was worked out</summary>
    <ul className="small">
      {notes.map((n) => (
        <li key={n}>
          <Said text={n} />
        </li>
      ))}
    </ul>
  </details>
)
