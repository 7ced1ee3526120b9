import type { ReactNode } from 'react'
import type { StageAnswer, StageVerdict } from '#core/stage'
import { Formula, LetterSymbol, Plain, Prose } from '#web/typeset'
import { degrees, StageWordShown } from './verdict.tsx'

export const percent = (share: number): string => `${Math.round(100 * share)}\u00a0%`.replace('-', '\u2212')

interface TableProps {
  readonly name: string
  readonly head: readonly ReactNode[]
  readonly children: ReactNode
}

/** A table with its head; the first column names its rows. */
export function Table({ name, head, children }: TableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className="scroll" tabIndex={0} aria-label={name}>
      <table>
        <thead>
          <tr>
            {head.map((h, k) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: columns never move
              <th key={k} scope="col" className={k === 0 ? undefined : 'n'}>
                {h}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </section>
  )
}

/** Every limit with what is spare of it. */
export function Limits({ answer }: { readonly answer: StageAnswer }) {
  return (
    <>
      <Table name="Limits" head={['What happens beyond it', 'Spare', 'At', 'Passed at']}>
        {answer.limits.map((l) => (
          <tr key={l.limit}>
            <th scope="row" className="stage-wrap">
              <Prose text={l.says} />
            </th>
            <td className="n">{percent(l.spare)}</td>
            <td className="n">{degrees(l.atC)}</td>
            <td className="n">{l.failsAtC === undefined ? 'not found' : degrees(l.failsAtC)}</td>
          </tr>
        ))}
      </Table>
      {answer.cases.length > 0 && (
        <>
          <h3>Under strain</h3>
          <ul className="stage-strains">
            {answer.cases.map((c) => (
              <li key={c.name}>
                <Strain says={c.says} verdict={c.verdict} />
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}

const Strain = ({ says, verdict: { word, why } }: { readonly says: string; readonly verdict: StageVerdict }) => (
  <>
    {says.charAt(0).toUpperCase() + says.slice(1)}: <StageWordShown word={word} />.{' '}
    <span className="soft">
      <Prose text={why} />
    </span>
  </>
)

/** What the leakage of the part does to current and voltage. */
export function Leakage({ answer: { leakage } }: { readonly answer: StageAnswer }) {
  if (leakage.length === 0) return <p className="soft">This stage has no standing current that leakage could shift.</p>
  return (
    <Table
      name="With and without leakage"
      head={[
        'Air',
        <LetterSymbol key="i" of="I_C" />,
        'without leakage',
        'its share',
        <LetterSymbol key="v" of="V_CE" />,
        'without leakage',
      ]}
    >
      {leakage.map((l) => (
        <tr key={l.temperatureC}>
          <th scope="row">{degrees(l.temperatureC)}</th>
          <td className="n">
            <Plain value={l.ic} unit="A" digits={3} />
          </td>
          <td className="n">
            <Plain value={l.icWithout} unit="A" digits={3} />
          </td>
          <td className="n">{percent(1 - l.icWithout / l.ic)}</td>
          <td className="n">
            <Plain value={l.vce} unit="V" digits={3} />
          </td>
          <td className="n">
            <Plain value={l.vceWithout} unit="V" digits={3} />
          </td>
        </tr>
      ))}
    </Table>
  )
}

/** Stability factors, solved and by the textbook. */
export function Stability({ answer }: { readonly answer: StageAnswer }) {
  const found = answer.stability.filter((f) => Number.isFinite(f.solved))
  if (found.length === 0) return <p className="soft">There are none for this stage.</p>
  return (
    <>
      <Table name="Stability factors" head={['Factor', 'solved', 'by the textbook', 'textbook formula']}>
        {found.map((f) => (
          <tr key={f.symbol}>
            <th scope="row">
              <LetterSymbol of="S" />(<LetterSymbol of={f.symbol.slice(2, -1)} />)
            </th>
            <td className="n">
              <Plain value={f.solved} unit={f.unit} digits={3} />
            </td>
            <td className="n">
              {f.textbook === undefined ? 'does not hold here' : <Plain value={f.textbook} unit={f.unit} digits={3} />}
            </td>
            <td className="n">{f.textbook !== undefined && <Formula text={f.formula} />}</td>
          </tr>
        ))}
      </Table>
      <p className="soft small">
        The solver counts all of the stage. The textbook leaves out the resistance of the transistor itself. All at 25
        °C.
      </p>
    </>
  )
}

/** How far thermal runaway is, in the hottest air. */
export function Runaway({ answer: { position, parts, table } }: { readonly answer: StageAnswer }) {
  const { rthKPerW } = parts[position.place]!.ratings
  const hottest = table.reduce((a, b) => (b.point.ambientC > a.point.ambientC ? b : a), table[0]!)?.point
  if (rthKPerW === undefined) return <p className="soft">Nothing is known of how the part sheds its heat.</p>
  if (hottest === undefined) return <p className="soft">There is no point to look at.</p>
  const { loopGain, mostKPerW, ambientC } = hottest
  return (
    <>
      <p>
        {loopGain > 0 ? (
          <>
            In air of {degrees(ambientC)} a warming of 1 K brings back <Plain value={loopGain} unit="K" digits={2} />:
            at 1 K the part runs away.
          </>
        ) : (
          <>In air of {degrees(ambientC)} a warming makes less heat, not more.</>
        )}
      </p>
      <p>
        It has <Plain value={rthKPerW} unit="K/W" digits={3} /> from junction to air;{' '}
        {mostKPerW === undefined ? (
          'it would come to rest with any.'
        ) : (
          <>
            it comes to rest with up to <Plain value={mostKPerW} unit="K/W" digits={3} />.
          </>
        )}
      </p>
    </>
  )
}
