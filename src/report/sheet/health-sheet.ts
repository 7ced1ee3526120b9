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
export const healthSheet = (h: Health): Sheet => ({
  kind: 'Health of a tester',
  title: h.name,
  lead: [{ outcome: outcomeOf[h.word], say: h.say }, ...h.standards.map((s) => ({ say: s.say }))],
  facts: [['On', h.on], ...(h.nextDue === undefined ? [] : [['Next due', h.nextDue] as const])],
  blocks: [
    {
      kind: 'table',
      caption: 'Range by range',
      head: ['range', 'worth', 'calibrated', 'due', 'why'],
      rows: h.ranges.map((r) => [r.range, r.word, r.calibrated ?? 'never', r.due ?? '', r.why]),
    },
  ],
  notes: [
    'A range is worth what the calibration in force says; one that was due again is not trusted. Readings on a range that is not trusted say so in every result.',
    'A check standard that is out of control takes the trust from the whole tester until the cause is found.',
  ],
})
