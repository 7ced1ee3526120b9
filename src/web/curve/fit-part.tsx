import { useQuery } from '@tanstack/react-query'
import { useMemo, useState } from 'react'
import type { KeptCurve } from '#api'
import { type CurveFit, type FittedParameter, fitCard } from '#core/fit'
import { isUnit, printPlain } from '#core/quantity'
import { fitPlot } from '#report/curve'
import { linePlot } from '#report/plot'
import { announce } from '#web/live'
import { Plot } from '#web/plot'
import { LetterSymbol, Prose } from '#web/typeset'
import { fitQuery, usualC } from './query.ts'

/** The law fitted to a curve: drawing with its interval, parameters, and the card to copy. */
export function FitPart({ kept }: { readonly kept: KeptCurve }) {
  const { data: fit, error } = useQuery(fitQuery(kept))
  const plot = useMemo(() => (fit === undefined ? undefined : fitPlot(kept.curve, fit)), [kept, fit])
  if (error !== null)
    return (
      <p className="field-fault" role="alert">
        {error.message}
      </p>
    )
  if (fit === undefined || plot === undefined) return <p className="soft">Fitting …</p>
  return (
    <>
      <figure className="figure curve-fit">
        <Plot draw={(width) => linePlot(plot, { width })} />
        <figcaption className="small">
          The readings and the law that was fitted to them. The band is the 95 % interval of the law; the dotted lines
          are where 95 of 100 readings lie.
        </figcaption>
      </figure>
      <Parameters fit={fit} />
      {kept.temperatureC === undefined && (
        <p className="soft small">The file did not say how warm the part was: {usualC} °C is taken.</p>
      )}
      <Card fit={fit} name={kept.curve.name} />
    </>
  )
}

const figure = (x: number, unit: string): string => {
  if (isUnit(unit)) return printPlain(x, unit, { digits: 4 })
  return `${Number(x.toPrecision(4))} ${unit.replace('V2', 'V²')}`
}

function Parameters({ fit }: { readonly fit: CurveFit }) {
  const fitted = fit.parameters.filter((p) => p.standing === 'fitted')
  const held = fit.parameters.filter((p) => p.standing === 'held')
  return (
    <section aria-label="Fitted parameters">
      <table className="curve-parameters">
        <thead>
          <tr>
            <th scope="col">Parameter</th>
            <th scope="col" className="n">
              Value
            </th>
            <th scope="col">95 % interval</th>
          </tr>
        </thead>
        <tbody>
          {fitted.map((p) => (
            <tr key={p.symbol}>
              <th scope="row">
                <LetterSymbol of={p.symbol} />
              </th>
              <td className="n">{figure(p.value, p.unit)}</td>
              <td>{intervalText(p)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {held.length > 0 && (
        <details className="curve-held">
          <summary>{held.length === 1 ? 'One parameter was held' : `${held.length} parameters were held`}</summary>
          <ul>
            {held.map((p) => (
              <li key={p.symbol}>
                <LetterSymbol of={p.symbol} /> {p.value === 0 ? 'left out' : `at ${figure(p.value, p.unit)}`}:{' '}
                <Prose text={`${p.why ?? ''}.`} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}

const intervalText = (p: FittedParameter): string =>
  p.low === undefined || p.high === undefined
    ? (p.why ?? 'not known')
    : `${figure(p.low, p.unit)} to ${figure(p.high, p.unit)}`

/** A name as cards take it. */
const cardName = (tag: string): string => {
  const plain = tag.replaceAll(/[^a-z0-9]+/gi, '_').replaceAll(/^_+|_+$/g, '')
  return /^[a-z]/i.test(plain) ? plain : `x${plain}`
}

/** The fit as a card that simulators read, to be copied. */
function Card({ fit, name }: { readonly fit: CurveFit; readonly name: string }) {
  const [said, setSaid] = useState('')
  const card = useMemo(() => fitCard(fit, cardName(name), new Date().toISOString().slice(0, 10)), [fit, name])
  const say = (text: string): void => {
    setSaid(text)
    announce(text)
  }
  const copy = (): void => {
    navigator.clipboard.writeText(card).then(
      () => say('The card is copied.'),
      () => say('The browser did not let it be copied: mark the text and copy it.'),
    )
  }
  return (
    <details className="curve-card">
      <summary>Card for simulators</summary>
      <textarea className="area" readOnly aria-label="Model card" rows={card.split('\n').length} value={card} />
      <p>
        <button type="button" className="button" onClick={copy}>
          Copy the card
        </button>{' '}
        <span className="soft small">{said}</span>
      </p>
    </details>
  )
}
