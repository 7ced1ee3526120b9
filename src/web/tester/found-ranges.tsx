import type { FoundRange, TotalError } from '#core/upkeep'
import { layScale, place, type Scale } from '#report/plot'
import { bookText } from '#web/typeset'
import { signedPercent } from './found-typed.ts'

interface Props {
  readonly ranges: readonly FoundRange[]
  /** Class of the movement, percent. */
  readonly classPercent: number
}

/** The error of each range at full scale, as found and mended: numbers, and beside them a drawing. */
export function FoundRanges({ ranges, classPercent }: Props) {
  const scale = scaleFor(ranges, classPercent)
  return (
    <table className="found-ranges">
      <thead>
        <tr>
          <th scope="col">Range</th>
          <th scope="col" className="n">
            As found
          </th>
          <th scope="col" className="n">
            Mended
          </th>
          <td aria-hidden="true" className="found-axis">
            <div className="found-drawing">
              {scale.ticks.map((t) => (
                <span key={t.value} style={at(scale, t.value)}>
                  {t.label.replace('-', '\u2212')}
                </span>
              ))}
            </div>
          </td>
        </tr>
      </thead>
      <tbody>
        {ranges.map(({ range, before, after }) => (
          <tr key={range.id}>
            <th scope="row">{bookText(range.id)}</th>
            <td className="n">
              <ErrorText of={before} />
            </td>
            <td className="n">
              <ErrorText of={after} />
            </td>
            <td aria-hidden="true">
              <div className="found-drawing">
                <i className="found-class" style={span(scale, -classPercent, classPercent)} />
                <i className="found-zero" style={at(scale, 0)} />
                <Bar of={before} scale={scale} className="before" />
                <Bar of={after} scale={scale} className="after" />
              </div>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

const ErrorText = ({ of: { error, expanded } }: { readonly of: TotalError }) => (
  <>
    {signedPercent(error).replace(/\s%/, '')}{' '}
    <span className="soft found-doubt">{`±\u00a0${(expanded * 100).toFixed(2)}\u00a0%`}</span>
  </>
)

interface BarProps {
  readonly of: TotalError
  readonly scale: Scale
  readonly className: 'before' | 'after'
}

/** The interval that holds the true error, and a dot where it most likely is. */
const Bar = ({ of: { error, expanded }, scale, className }: BarProps) => (
  <>
    <i className={`found-bar ${className}`} style={span(scale, 100 * (error - expanded), 100 * (error + expanded))} />
    <i className={`found-dot ${className}`} style={at(scale, 100 * error)} />
  </>
)

const at = (scale: Scale, percent: number) => ({ left: `${place(scale, percent)}%` })

const span = (scale: Scale, from: number, to: number) => ({
  left: `${place(scale, from)}%`,
  width: `${place(scale, to) - place(scale, from)}%`,
})

/** One axis for all ranges, in percent across the width. */
function scaleFor(ranges: readonly FoundRange[], classPercent: number): Scale {
  const ends = ranges.flatMap(({ before, after }) =>
    [before, after].flatMap((t) => [100 * (t.error - t.expanded), 100 * (t.error + t.expanded)]),
  )
  const axis = { symbol: '', name: 'error at full scale', unit: '1', kind: 'linear' } as const
  return layScale(axis, [...ends, -classPercent, classPercent], { from: 0, to: 100, labels: 5 })
}
