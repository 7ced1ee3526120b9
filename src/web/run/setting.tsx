import type { Step } from '#core/sheet'
import { Plain } from '#web/typeset'

type SetStep = Extract<Step, { kind: 'set' }>

/** What is to be set, large enough to be read from where the soldering iron is. */
export function Setting({ step }: { readonly step: SetStep }) {
  return (
    <p className="setting">
      <span className="setting-what">{step.what}</span>
      <span className="setting-value">
        {typeof step.value === 'number' ? <Plain value={step.value} unit={step.unit ?? '1'} digits={3} /> : step.value}
      </span>
    </p>
  )
}
