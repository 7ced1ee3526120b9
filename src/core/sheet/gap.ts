import type { ConditionSymbol, Limit } from '#core/device'
import { readingKinds } from '#core/tester'
import type { Bench } from './bench.ts'
import { isNearTemperature } from './expected.ts'
import { rules } from './rule.ts'
import { listed, say, sayConditions } from './say.ts'
import type { Gap, Step } from './sheet.ts'

type ReadStep = Extract<Step, { kind: 'read' }>

/** Symbols measured with signals, pulses or bridges, and what they need. */
const dynamic: readonly (readonly [pattern: RegExp, needs: string])[] = [
  [/^(f_|C_|h_2?1?fb|y_|t_|NF|F$|Q_)/, 'a signal generator, bridge or pulse equipment'],
  [/^(r_Z|alpha_VZ)/, 'a current-limited supply above the Zener voltage and small changes of current'],
]

/** Small-signal symbols that two direct-current points come near to. */
const byTwoPoints = ['h_fe', 'h_21e', 'h_ie', 'h_11e', 'h_oe', 'h_22e']

/** The reading that answers a published symbol. */
const readingOf = (symbol: string): string => (symbol === 'V_BE(on)' ? 'V_BE' : symbol)

/** Why a published symbol has no place on a direct-current sheet; undefined where it has. */
function whyNoTest(
  b: Bench,
  symbol: string,
  steps: readonly ReadStep[],
): readonly [why: string, mend?: string] | undefined {
  if (byTwoPoints.includes(symbol)) {
    const points = new Set(steps.filter((s) => s.reads === 'h_FE' || s.reads === 'I_C').map((s) => s.point))
    return points.size > 1
      ? undefined
      : ['It is a small-signal property; two points come near to it, and there is only one here.']
  }
  const needs = dynamic.find(([pattern]) => pattern.test(symbol))?.[1]
  if (needs !== undefined) return [`It needs other equipment: ${needs}.`]
  if (/BR|sus/.test(symbol))
    return ['Breakdown needs a supply limited in current and above the ratings: not a test for this tester.']
  if (symbol === 'V_Z')
    return [
      'Breakdown of a Zener diode needs a supply above its voltage with a series resistor, and a voltmeter across it: this tester offers no such test.',
      zenerMend(b),
    ]
  if (symbol === 'h_re') return ['It is a small-signal property and needs a signal generator.']
  if ((readingKinds as readonly string[]).includes(readingOf(symbol)) && steps.length > 0) return undefined
  return ['The tester offers no such test.']
}

/** How a Zener diode could be read outside the tester. */
function zenerMend(b: Bench): string {
  const limit = b.partType?.limits.find((l) => l.symbol === 'V_Z')
  const current = limit?.at.I_Z
  const volt = limit?.typ ?? limit?.max
  if (current === undefined || volt === undefined) return 'Use a limited supply, a resistor and a voltmeter.'
  return `Use a supply of about ${say(volt * 1.5, 'V')}, ${say((volt * 0.5) / current, 'ohm')} in series for ${say(current, 'A')}, and a voltmeter.`
}

/** Whether a step's conditions come near a published limit's. */
function isReached(l: Limit, s: ReadStep): boolean {
  return Object.entries(l.at).every(([symbol, wanted]) => {
    if (symbol === 'T' || symbol === 'f' || symbol === 'I_B') return true
    const got = s.conditions[symbol as ConditionSymbol]
    return got !== undefined && Math.abs(got - wanted) <= rules.conditionShare * Math.abs(wanted)
  })
}

function limitText(l: Limit): string {
  const { T, ...at } = l.at
  const where = sayConditions(at)
  return `${where === '' ? 'no condition' : where}${T === undefined ? '' : `${where === '' ? '' : ', '}${T} degC`}`
}

/** Why the published limits of a symbol are out of reach though it is read; one gap for all of them. */
function unreached(b: Bench, limits: readonly Limit[], steps: readonly ReadStep[]): Gap | undefined {
  const symbol = limits[0]!.symbol
  const read = steps.filter((s) => s.reads === readingOf(symbol) || (symbol === 'h_FE' && s.reads === 'I_B'))
  const cold = limits.filter((l) => isNearTemperature(l, b.wishes.ambientC) && !read.some((s) => isReached(l, s)))
  const warm = limits.filter((l) => !isNearTemperature(l, b.wishes.ambientC))
  if (cold.length + warm.length === 0) return undefined
  const published = `Published at ${listed([...new Set([...cold, ...warm].map(limitText))])}`
  const here = [...new Set(read.map((s) => sayConditions(s.conditions)).filter((t) => t !== ''))]
  if (read.length === 0) return { symbol, why: `${published}; ${offerText(b, symbol)}.` }
  const why =
    cold.length > 0
      ? `${published}; this sheet reads it at ${here.length === 0 ? "a condition of the tester's own" : listed(here)}.`
      : `${published}; this room has ${say(b.wishes.ambientC, 'degC')}.`
  return { symbol, why, ...(cold.length > 0 ? { mend: carriedOver } : {}) }
}

const carriedOver = 'The value is carried over by its law where there is one, with added doubt.'

const offerText = (b: Bench, symbol: string): string =>
  b.tester.tests.some((t) => t.reads === readingOf(symbol)) || (symbol === 'h_FE' && b.tester.gain.kind === 'ratio')
    ? 'this sheet does not read it'
    : 'the tester offers no such test'

/**
 * Published limits that a sheet does not reach, and why: no test for it, another condition, another temperature, or
 * other equipment. Symbols that already have a gap are left as they are.
 */
export function limitGaps(b: Bench, steps: readonly Step[], have: readonly Gap[]): readonly Gap[] {
  const reads = steps.filter((s) => s.kind === 'read' && s.reads !== 'short') as readonly ReadStep[]
  const limits = b.partType?.limits ?? []
  const symbols = [...new Set(limits.map((l) => l.symbol))].filter(
    (s) => !have.some((g) => g.symbol === s && g.why !== ''),
  )
  return symbols.flatMap((symbol): readonly Gap[] => {
    const none = whyNoTest(b, symbol, reads)
    if (none !== undefined) return [{ symbol, why: none[0], ...(none[1] === undefined ? {} : { mend: none[1] }) }]
    if (byTwoPoints.includes(symbol)) return []
    const gap = unreached(
      b,
      limits.filter((l) => l.symbol === symbol),
      reads,
    )
    return gap === undefined ? [] : [gap]
  })
}
