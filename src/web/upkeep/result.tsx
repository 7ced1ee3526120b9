import type { Sheet } from '#report/sheet'
import type { Attempt } from './attempt.ts'
import { FaultList } from './faults.tsx'
import { SheetView } from './sheet-view.tsx'

interface Props {
  /** Nothing where too little is typed yet. */
  readonly of: Attempt<Sheet> | undefined
  /** Name of the file it may be saved as, without its ending. */
  readonly file: string
  /** What to do first. */
  readonly first: string
}

/** What came of what was typed: its sheet, what is wrong, or what to do first. */
export const Result = ({ of, file, first }: Props) => (
  <section className="spread">
    <h2>What comes of it</h2>
    <div className="matter">
      {of === undefined ? (
        <p className="soft">{first}</p>
      ) : of.ok ? (
        <SheetView sheet={of.value} file={file} />
      ) : (
        <FaultList faults={of.faults} />
      )}
    </div>
  </section>
)
