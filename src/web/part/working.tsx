import type { WorkingModel, WorkingStep } from '#report/model'
import { budgetBars } from '#report/plot'
import { FigureOf, Formula, LetterSymbol, Prose, PutIn } from '#web/typeset'

/** The working of a number: its equations, the numbers they rest on, and where the doubt comes from. */
export function WorkingOf({ working: w }: { readonly working: WorkingModel }) {
  return (
    <div className="working">
      <StepsOf steps={w.steps} />
      {w.budget !== undefined && (
        // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by the report's own plots, which escape every text
        <div dangerouslySetInnerHTML={{ __html: budgetBars(w.budget) }} />
      )}
      <p className="coverage-said">
        <Prose text={w.coverage} />
      </p>
    </div>
  )
}

/** Equations first, then what they rest on. */
export function StepsOf({ steps }: { readonly steps: readonly WorkingStep[] }) {
  const given = steps.filter((s) => s.formula === undefined)
  return (
    <>
      {steps.map(
        (s) => s.formula !== undefined && <Equation key={`${s.symbol} ${s.what}`} step={s} formula={s.formula} />,
      )}
      {given.length > 0 && <Inputs steps={given} />}
    </>
  )
}

interface EquationProps {
  readonly step: WorkingStep
  readonly formula: string
}

/** Formula, the same with numbers put in, and the result, their equals signs below each other. */
function Equation({ step: s, formula }: EquationProps) {
  const cut = formula.indexOf(' = ')
  const left = formula.slice(0, cut)
  return (
    <div className="eq" id={s.id}>
      {s.symbol !== left && (
        <span className="eq-which">
          <Named step={s} />
        </span>
      )}
      <span className="eq-left">
        <Formula text={left} />
      </span>
      <span>=</span>
      <span className="eq-right">
        <Formula text={formula.slice(cut + 3)} />
      </span>
      {s.putIn !== undefined && (
        <>
          <span className="eq-left" />
          <span>=</span>
          <span className="eq-right">
            <PutIn text={s.putIn} />
          </span>
        </>
      )}
      <span className="eq-left" />
      <span>=</span>
      <span className="eq-right">
        <FigureOf figure={s.result} />
      </span>
      {s.source !== undefined && (
        <span className="eq-source soft small">
          <Prose text={s.source} />
        </span>
      )}
    </div>
  )
}

/** A number by its symbol, and by its words where they say more. */
function Named({ step: s }: { readonly step: WorkingStep }) {
  return (
    <>
      <Formula text={s.symbol} />
      {s.what !== '' && s.what !== s.symbol && (
        <span className="soft">
          {' '}
          <Prose text={s.what} />
        </span>
      )}
    </>
  )
}

function Inputs({ steps }: { readonly steps: readonly WorkingStep[] }) {
  return (
    <table className="inputs">
      <caption>What it rests on</caption>
      <thead className="vh">
        <tr>
          <th scope="col">Number</th>
          <th scope="col">Value</th>
          <th scope="col">How it is known</th>
        </tr>
      </thead>
      <tbody>
        {steps.map((s) => (
          <tr key={`${s.symbol} ${s.what}`}>
            <th scope="row">
              <Named step={s} />
            </th>
            <td className="n">
              <FigureOf figure={s.result} />
            </td>
            <td className="soft">
              <Known step={s} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Known({ step: s }: { readonly step: WorkingStep }) {
  if (s.worked === undefined) return <Prose text={s.known ?? ''} />
  const { id, under } = s.worked
  return (
    <a href={`#${id}`}>
      {under === undefined ? (
        'worked once, below'
      ) : (
        <>
          worked under <LetterSymbol of={under} />
        </>
      )}
    </a>
  )
}
