import { printPlain } from '#core/quantity'
import { correctionAt, readoutName, type Tester, type TrustWord } from '#core/tester'
import { type Calibrated, type CalibratedRange, halfWidth } from '#core/upkeep'
import type { CoursePlot } from '#report/plot'
import type { Outcome } from '#report/typeset'
import type { Sheet, SheetPlot, SheetTable } from './sheet.ts'

/** What a trust word looks like. */
export const trustOutcome: Readonly<Record<TrustWord, Outcome>> = {
  trusted: 'conforms',
  'with corrections': 'undecided',
  'not trusted': 'does not conform',
}

/** The certificate of a calibration. */
export function certificateSheet(tester: Tester, { calibration: c, ranges }: Calibrated): Sheet {
  return {
    kind: 'Calibration certificate',
    title: tester.name,
    lead: ranges.map((r) => ({
      outcome: trustOutcome[r.calibration.trust],
      say: `${nameOf(r)}: ${r.calibration.trust}. ${r.calibration.why}`,
    })),
    facts: [
      ['Calibrated', c.date],
      ...(c.from === undefined ? [] : [['Corrects', `readings from ${c.from} on`] as const]),
      ...(c.due === undefined ? [] : [['Due again', c.due] as const]),
      ...(c.by === undefined ? [] : [['By', c.by] as const]),
      ...(c.reference === undefined ? [] : [['Against', c.reference] as const]),
      ...(c.ambientC === undefined ? [] : [['At', `${c.ambientC} °C`] as const]),
      ...(c.note === undefined ? [] : [['Note', c.note] as const]),
    ],
    blocks: [
      correctionTable(ranges),
      { kind: 'prose', heading: 'What to trim', lines: ranges.map((r) => r.advice.say) },
      ...ranges.flatMap((r) => [errorPlot(r), pointsTable(r)]),
    ],
    notes: [
      'A correction is added to what is shown. Straight lines and their uncertainties are by least squares (JCGM 100:2008, H.3); a curve is taken where repeats show that a line is too simple.',
      'The 95 % half-width covers the correction, the reference, and what one reading leaves open: reading the scale, friction and repeats.',
      'Trusted: every error, with that half-width, lies inside what the description allows (two standard uncertainties of the range as described). Not trusted: friction beyond that, or an error beyond five times that (common practice).',
    ],
  }
}

const text = (r: CalibratedRange, x: number, digits = 3): string => printPlain(x, r.readout.unit, { digits })

const nameOf = (r: CalibratedRange): string => readoutName(r.readout)

const correctionTable = (ranges: readonly CalibratedRange[]): SheetTable => ({
  kind: 'table',
  caption: 'Corrections',
  head: ['range', 'by', '>at a fifth', '>at the top', '>95 % half-width', '>friction', '>readings'],
  rows: ranges.map((r) => [
    nameOf(r),
    r.calibration.law.kind,
    text(r, correctionAt(r.calibration, r.readout.fullScale / 5).value),
    text(r, correctionAt(r.calibration, r.calibration.to).value),
    text(r, r.expanded, 2),
    r.correction.friction === undefined ? 'not looked for' : text(r, r.correction.friction, 2),
    String(r.points.length),
  ]),
})

const pointsTable = (r: CalibratedRange): SheetTable => ({
  kind: 'table',
  caption: `Readings of ${nameOf(r)}`,
  head: ['>reference', '>shown', '>error', '>after correction', 'way'],
  rows: r.points.map((p) => [
    text(r, p.reference, 5),
    text(r, p.shown, 5),
    text(r, p.shown - p.reference),
    text(r, p.shown + correctionAt(r.calibration, p.shown).value - p.reference),
    p.way ?? '',
  ]),
})

/** Errors against what is shown, with the law through them and its band, and what the description allows. */
function errorPlot(r: CalibratedRange): SheetPlot {
  const c = r.calibration
  const places = Array.from({ length: 25 }, (_, i) => c.from + ((c.to - c.from) * i) / 24)
  const error = (x: number): number => -correctionAt(c, x).value
  const half = (x: number): number => halfWidth(c, x)
  const { unit } = r.readout
  const plot: CoursePlot = {
    title: `Errors of ${nameOf(r)}`,
    desc: `${r.points.length} readings; ${c.trust}. ${c.why}`,
    x: { symbol: '', name: `shown on ${nameOf(r)}`, unit, kind: 'linear' },
    y: { symbol: '', name: 'shown less reference', unit, kind: 'linear' },
    points: r.points.map((p) => ({
      x: p.shown,
      y: p.shown - p.reference,
      outcome: p.way === 'down' ? ('not judged' as const) : ('conforms' as const),
    })),
    lines: [
      { kind: 'centre', label: 'law', at: places.map((x) => [x, error(x)] as const) },
      { kind: 'edge', at: [[c.from, 0]] },
      { kind: 'limit', label: 'allowed', at: [[c.from, r.worst.limit]] },
      { kind: 'limit', label: 'allowed', at: [[c.from, -r.worst.limit]] },
    ],
    bands: [
      {
        low: places.map((x) => [x, error(x) - half(x)] as const),
        high: places.map((x) => [x, error(x) + half(x)] as const),
      },
    ],
  }
  return {
    kind: 'plot',
    caption: `${nameOf(r)}: error of each reading (dots from below, dashes from above), the law through them with its 95 % interval (shaded), and what the description allows at the worst place.`,
    plot,
  }
}
