import { printPercent, printPlain } from '#core/quantity'
import type { Caution } from '#core/sheet'
import type { Drive, Protection, ProtectionResult } from '#core/upkeep'
import { cautionBlock } from './caution-block.ts'
import type { Sheet } from './sheet.ts'

/** What diodes across a movement were looked at for. */
export interface ProtectionAsked {
  /** Range they protect. */
  readonly range: string
  readonly overload: Drive
  /** Error they may make at full scale, as a part of it. */
  readonly mostError: number
  /** How many full scales the movement bears for a moment. */
  readonly bears: number
}

/** The page of diodes across a movement: what each kind costs and saves. */
export function protectionSheet(asked: ProtectionAsked, p: Protection, cautions: readonly Caution[]): Sheet {
  const { range, overload, mostError, bears } = asked
  const over =
    overload.kind === 'full-scale'
      ? `${overload.times} times full scale`
      : `${printPlain(overload.emfV, 'V')} from ${printPlain(overload.ohm, 'ohm')}`
  const taken = p.results.find((r) => r.id === p.recommended)
  return {
    kind: 'Protection of a movement',
    title: `Diodes across the movement on ${range}`,
    lead: [
      {
        ...(taken === undefined ? {} : { outcome: 'conforms' as const }),
        say: `Across the movement on ${range}, against ${over}: ${taken === undefined ? 'no diode helps here' : `${taken.name}, one each way`}.`,
      },
    ],
    facts: [
      ['May cost', `${printPercent(mostError)} at full scale`],
      ['The movement bears', `${Number(bears.toPrecision(3))} times full scale for a moment`],
    ],
    blocks: [
      {
        kind: 'table',
        caption: 'What they cost at full scale, and what they hold the overload to',
        head: [
          'diodes',
          'verdict',
          ...p.results[0]!.errors.map((e) => `>at ${e.temperatureC} °C`),
          '>held to (x full scale)',
          '>through them',
        ],
        rows: p.results.map((r) => [
          r.name,
          wordOf(r, p),
          ...r.errors.map((e) => printPercent(e.error)),
          `${Number(r.heldTo.toPrecision(3))}`,
          printPlain(r.diodeA, 'A', { digits: 2 }),
        ]),
      },
      { kind: 'prose', heading: 'Why', lines: p.why },
      ...cautionBlock(cautions),
    ],
    notes: [
      'Of the kinds that cost little enough, hold low enough and live, the one that holds lowest is taken. All of it is from the circuit, through the network of the range.',
    ],
  }
}

const wordOf = (r: ProtectionResult, p: Protection): string =>
  r.id === p.recommended ? '= take it' : r.isAccurate && r.holds && r.survives ? 'would do' : 'x no'
