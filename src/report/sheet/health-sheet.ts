import type { Health } from '#core/upkeep'
import type { Outcome } from '#report/typeset'
import type { Sheet } from './sheet.ts'

const outcomeOf: Readonly<Record<Health['word'], Outcome>> = {
  trusted: 'conforms',
  'with corrections': 'undecided',
  'as described': 'not judged',
  'not trusted': 'does not conform',
}

/** The page of a tester's health. */
export function healthSheet(h: Health): Sheet {
  const isDated = h.ranges.some((r) => r.calibrated !== undefined)
  return {
    kind: 'Health of a tester',
    title: h.name,
    lead: [{ outcome: outcomeOf[h.word], say: h.say }, ...h.standards.map((s) => ({ say: s.say }))],
    facts: [['On', h.on], ...(h.nextDue === undefined ? [] : [['Next due', h.nextDue] as const])],
    blocks: [
      {
        kind: 'table',
        caption: 'Range by range',
        head: ['range', 'worth', ...(isDated ? ['calibrated', 'due'] : []), 'why'],
        rows: h.ranges.map((r) => [r.range, r.word, ...(isDated ? [r.calibrated ?? 'never', r.due ?? ''] : []), r.why]),
      },
    ],
    notes: [
      'A range is worth what the calibration in force says; one that was due again is not trusted. Parts that were measured since count more than it: where they put a range beyond what its description allows, it is not trusted. Readings on a range that is not trusted say so in every result.',
      'A check standard that is out of control takes the trust from the whole tester until the cause is found.',
    ],
  }
}
