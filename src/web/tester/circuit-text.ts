import { printPlain } from '#core/quantity'
import type { AsFound, Range } from '#core/tester'

const percent = (fraction: number): string => `${Number((fraction * 100).toPrecision(3))} %`
const ohm = (value: number): string => printPlain(value, 'ohm')
const found = (asFound: AsFound | undefined): string =>
  asFound === undefined ? '' : `, found ${ohm(asFound.ohm)} ± ${ohm(asFound.uOhm)}`

/** How a range reaches the movement, or how accurate it is said to be, in a few words. */
export function circuitText({ circuit: c }: Range, unit: 'A' | 'V'): string {
  switch (c.kind) {
    case 'movement':
      return 'straight to the movement'
    case 'shunt':
      return `shunt ${ohm(c.shuntOhm)} ± ${percent(c.tolerance)}${found(c.asFound)}`
    case 'universal':
      return `ring ${ohm(c.ringOhm)}, tapped at ${ohm(c.tapOhm)} ± ${percent(c.tolerance)}`
    case 'multiplier':
      return `in series ${ohm(c.seriesOhm)} ± ${percent(c.tolerance)}${found(c.asFound)}`
    case 'stated':
      return `± (${statedText(c)})${burdenText(c, unit)}`
    case 'unknown':
      return `accuracy not stated; ${percent(c.assumed)} taken for granted`
  }
}

type Stated = Extract<Range['circuit'], { kind: 'stated' }>

function statedText(c: Stated): string {
  const parts = [
    c.ofReading > 0 ? `${percent(c.ofReading)} of reading` : '',
    c.ofRange > 0 ? `${percent(c.ofRange)} of range` : '',
    c.counts > 0 ? `${c.counts} ${c.counts === 1 ? 'count' : 'counts'}` : '',
  ]
  return parts.filter((p) => p !== '').join(' + ') || 'one step'
}

function burdenText(c: Stated, unit: 'A' | 'V'): string {
  if (unit === 'A' && c.burdenV !== undefined) return `, loses up to ${printPlain(c.burdenV, 'V')}`
  return unit === 'V' && c.inputOhm !== undefined ? `, input ${ohm(c.inputOhm)}` : ''
}
