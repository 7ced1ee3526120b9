import { type Fault, FaultError } from '#core/fault'
import { parseValue } from '#core/quantity'
import type { Tester } from '#core/tester'
import { nearNames } from '#core/text'
import { type TesterCheck, testerChecks } from './tester-checks.ts'

/** What people say of a check where they have no number. */
export const sightWords = ['right', 'none', 'low', 'high', 'pegged', 'unsteady'] as const
export type SightWord = (typeof sightWords)[number]

/** What was seen at one check: a word, or a number, which is a part of what should be seen, or divisions off. */
export interface Sight {
  readonly check: TesterCheck
  readonly seen: SightWord | number
}

/** Names that stand for several checks. */
const groups = {
  all: (c: TesterCheck) => c.kind === 'current' || c.kind === 'voltage',
  others: (c: TesterCheck) => c.kind === 'current' || c.kind === 'voltage',
  current: (c: TesterCheck) => c.kind === 'current',
  voltage: (c: TesterCheck) => c.kind === 'voltage',
} as const satisfies Readonly<Record<string, (c: TesterCheck) => boolean>>

const isGroup = (name: string): name is keyof typeof groups => Object.hasOwn(groups, name)

const plain = (text: string): string => text.toLowerCase().replaceAll(/\s+/g, '').replaceAll(/[µμ]/g, 'u')

/**
 * Reads what was seen: `10 mA: none`, `1 mA, 3 mA: low`, `all: -8 %`, `rest: +2 div`. What is said of one check goes
 * before what is said of a group; `others` are those ranges nothing else is said of.
 *
 * @throws {FaultError} naming the text, what is wrong with it, and the mend
 */
export function readSaw(texts: readonly string[], tester: Tester): readonly Sight[] {
  const checks = testerChecks(tester)
  const faults: Fault[] = []
  const single = new Map<TesterCheck, Sight['seen']>()
  const grouped: { readonly name: keyof typeof groups; readonly seen: Sight['seen'] }[] = []
  for (const text of texts) {
    const colon = text.lastIndexOf(':')
    if (colon < 0) {
      faults.push(saidFault(text, 'has no colon', 'Write where, a colon and what: "10 mA: none".'))
      continue
    }
    const what = text.slice(colon + 1).trim()
    for (const where of text
      .slice(0, colon)
      .split(',')
      .map((w) => w.trim())) {
      const group = plain(where)
      if (isGroup(group)) {
        const seen = seenOf(text, what, 'part', faults)
        if (seen !== undefined) grouped.push({ name: group, seen })
        continue
      }
      const check = checks.find((c) => plain(c.id) === group)
      if (check === undefined) faults.push(unknownPlace(where, checks, tester))
      else {
        const seen = seenOf(text, what, check.seen, faults)
        if (seen === undefined) continue
        if (single.has(check)) faults.push(saidFault(text, `speaks of ${check.id} again`, 'Say one thing of each.'))
        single.set(check, seen)
      }
    }
  }
  if (faults.length > 0) throw new FaultError(faults)
  for (const pass of [(n: string) => n !== 'others' && n !== 'all', (n: string) => n === 'others' || n === 'all'])
    for (const { name, seen } of grouped.filter((g) => pass(g.name)))
      for (const check of checks.filter(groups[name])) if (!single.has(check)) single.set(check, seen)
  return checks.filter((c) => single.has(c)).map((check) => ({ check, seen: single.get(check)! }))
}

const saidFault = (value: string, problem: string, mend: string): Fault => ({
  code: 'bad-input',
  place: { field: 'what was seen' },
  value,
  problem,
  mend,
})

function unknownPlace(where: string, checks: readonly TesterCheck[], t: Tester): Fault {
  const names = [...checks.map((c) => c.id), ...Object.keys(groups)]
  return {
    code: 'not-found',
    what: `place to look at on ${t.name}`,
    name: where,
    near: nearNames(where, names),
    mend: `It has: ${names.join(', ')}.`,
  }
}

function seenOf(text: string, what: string, seen: TesterCheck['seen'], faults: Fault[]): Sight['seen'] | undefined {
  const word = sightWords.find((w) => w === what.toLowerCase())
  if (word !== undefined) return word
  const percent = /^([+-])\s*([\d.,]+\s*%)$/.exec(what)
  if (seen === 'part' && percent !== null) {
    const parsed = parseValue(percent[2]!, { unit: '1' })
    if (parsed.ok) return 1 + (percent[1] === '-' ? -parsed.value : parsed.value)
  }
  if (seen === 'divisions') {
    const parsed = parseValue(what.replace(/^\+\s*/, ''), { unit: 'div' })
    if (parsed.ok) return parsed.value
  }
  const number = seen === 'part' ? 'how far it is off: -8 %' : 'divisions: +2 div'
  faults.push(
    saidFault(
      text,
      `ends in "${what}", which is nothing that is seen there`,
      `Write one of ${sightWords.join(', ')}, or ${number}.`,
    ),
  )
  return undefined
}

/** What was seen of the Larkfield sample, invented: lines as they stand after --saw. */
export const diagnoseExample = `# a line for each thing seen: where, a colon, what
# what is right, none, low, high, pegged, unsteady; or a number: -8 %, +2 div
rest: right
10 mA: pegged
100 mA: right
1 V: right
others: right
`
