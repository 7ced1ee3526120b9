import { describe, expect, test } from 'vitest'
import { sampleTester } from '#catalog'
import type { Device } from '#core/circuit'
import { FaultError } from '#core/fault'
import { Random, summarize } from '#core/numeric'
import { boltzmann, elementaryCharge } from '#core/physics'
import { limitTerm, standardUncertainty, term } from '#core/quantity'
import { reduceReadings } from '#core/reduce'
import { planSheet, type RunSheet } from '#core/sheet'
import { needle, type Range, readingsCsv, readReadings, type Tester } from '#core/tester'
import { expectRelative } from '#core/testing'
import { ErrorDraw } from '../../src/core/rehearsal/error-draw.ts'
import { Hands } from '../../src/core/rehearsal/hands.ts'
import { realTester } from '../../src/core/rehearsal/real-tester.ts'
import type { Truth } from '../../src/core/rehearsal/rehearsal.ts'
import { rehearse } from '../../src/core/rehearsal/rehearse.ts'
import { trueAt } from '../../src/core/rehearsal/set-to-mark.ts'
import { gainSight, restsAt } from '../../src/core/rehearsal/shown.ts'

const larkfield = sampleTester('larkfield')!
const tallow = sampleTester('tallow')!

/** Invented parts. */
const germanium: Device = {
  kind: 'bipolar',
  polarity: 'pnp',
  card: { is: 1.8e-6, nf: 1.01, bf: 75, vaf: 45, ise: 8e-8, ne: 1.7, br: 14, isc: 2.6e-6, nc: 1.35, rb: 110, eg: 0.68 },
  leakOhm: { cb: 1.5e6 },
}
const diode: Device = { kind: 'diode', card: { is: 2e-9, n: 1.8, tnom: 20 } }

const transistorSheet = planSheet(larkfield, undefined, { polarity: 'PNP', material: 'Ge', family: 'bjt' })
const diodeSheet = planSheet(larkfield, undefined, { family: 'diode' })

/** A tester without any error, and a hand that sets to the mark itself. */
class NoErrors extends ErrorDraw {
  constructor() {
    super(1)
  }
  override error(): number {
    return 0
  }
  override stream(): Random {
    const middle = new Random(1)
    middle.uniform = () => 0.5
    return middle
  }
}

/** Plays every step of a sheet on a tester without errors, at 20 degC. */
function faultless(sheet: RunSheet, device: Device): Hands {
  const hands = new Hands(sheet, { part: 'V1', device }, realTester(sheet.tester, new NoErrors()), 20)
  const supply = sheet.steps.flatMap((s) => (s.kind === 'read' && s.supply !== undefined ? [s.supply] : []))[0]
  for (const step of sheet.steps) {
    if (step.kind === 'set') hands.set(step, supply)
    if (step.kind === 'read') hands.read(step)
  }
  return hands
}

const truthOf = (truths: readonly Truth[], symbol: string, point: number): number =>
  truths.find((t) => t.symbol === symbol && t.point === point)!.value

const rangeOf = (tester: Tester, id: string | undefined): Range => tester.ranges.find((r) => r.id === id)!

describe('a tester without errors', () => {
  test('the needle stands where the forward model of the tester puts it, to the readable part of a division', () => {
    for (const [sheet, device] of [
      [transistorSheet, germanium],
      [diodeSheet, diode],
    ] as const) {
      const { readings, truths } = faultless(sheet, device)
      const needles = readings.filter((r) => r.shown.kind === 'deflection')
      expect(needles.length).toBeGreaterThan(2)
      for (const r of needles) {
        const range = rangeOf(larkfield, r.range)
        const wanted = needle(larkfield, range, truthOf(truths, r.reads, r.point), 20).divisions
        const shown = r.shown.kind === 'deflection' ? r.shown.divisions : Number.NaN
        expect(Math.abs(shown - wanted), `${r.reads} ${r.seen}`).toBeLessThanOrEqual(0.1 + 1e-9)
      }
    }
  })

  test('a diode takes what supply, source, resistor and meter leave it (Kirchhoff and the Shockley law)', () => {
    const { readings, truths } = faultless(diodeSheet, diode)
    const step = (boltzmann.value / elementaryCharge.value) * 293.15 * 1.8
    const read = readings.filter((r) => r.reads === 'I_F')
    expect(read.length).toBeGreaterThan(0)
    for (const r of read) {
      const current = truthOf(truths, 'I_F', r.point)
      const voltage = step * Math.log1p(current / 2e-9)
      const resistor = diodeSheet.seriesResistor!.ohm
      const shunt = rangeOf(larkfield, r.range).circuit
      if (shunt.kind !== 'shunt') throw new Error('the test wants a range with a shunt')
      const meter = 1 / (1 / (shunt.shuntOhm + shunt.contactOhm) + 1 / 1100)
      const source = (0.4 * r.supplyV!) / 1.5
      expectRelative(current * (resistor + meter + source) + voltage, r.supplyV!, 1e-6)
    }
  })

  test('a gain is what the dial shows, in its own steps; off every span there is no null', () => {
    const t = realTester(larkfield, new NoErrors())
    const asked = { part: 'V1', reads: 'h_FE', point: 1 } as const
    expect(gainSight(t, asked, 87.3, 'middle')).toMatchObject({ seen: '88', range: 'middle' })
    expect(gainSight(t, asked, 12.3, 'middle')).toMatchObject({ seen: '12.5', range: 'low' })
    expect(gainSight(t, asked, 2, 'middle')).toMatchObject({ seen: 'no null' })
  })
})

describe('a tester with errors', () => {
  test('the way to a mark and back is one way', () => {
    const t = realTester(larkfield, new ErrorDraw(4))
    const asked = { part: 'V1', reads: 'I_C', point: 1 } as const
    for (const range of larkfield.ranges.filter((r) => r.measures === 'current')) {
      const current = trueAt(t, asked, range, 23, 23.45)
      expectRelative(restsAt(t, asked, range, 23, current), 23.45, 1e-6)
    }
  })

  test('the same seed gives the same readings, another seed others', () => {
    const play = (seed: number) => rehearse(transistorSheet, { part: 'V1', device: germanium }, { seed })
    expect(play(5)).toEqual(play(5))
    expect(play(5).readings).not.toEqual(play(6).readings)
  })

  test('what it reads goes through a file and reduces to numbers near the truth', () => {
    const { readings, truths, leftOut } = rehearse(transistorSheet, { part: 'V1', device: germanium }, { seed: 2 })
    expect(leftOut).toEqual([])
    const read = readReadings(readingsCsv(readings), { tester: larkfield })
    if (!read.ok) throw new FaultError(read.faults)
    expect(read.readings.map((r) => r.shown)).toEqual(readings.map((r) => r.shown))
    const [result] = reduceReadings(larkfield, read.readings)
    const gains = result!.parameters.filter((p) => p.symbol === 'h_FE')
    expect(gains.length).toBeGreaterThan(0)
    for (const { quantity, points } of gains) {
      const off = quantity.value - truthOf(truths, 'h_FE', points[0]!)
      expect(Math.abs(off)).toBeLessThan(3 * standardUncertainty(quantity))
      expect(Math.abs(off)).toBeLessThan(0.08 * quantity.value)
    }
  })

  test('a display shows its own digits, and they read back', () => {
    const sheet = planSheet(tallow, undefined, { polarity: 'PNP', material: 'Ge', family: 'bjt' })
    const { readings } = rehearse(sheet, { part: 'V1', device: germanium }, { seed: 2 })
    const read = readReadings(readingsCsv(readings), { tester: tallow })
    if (!read.ok) throw new FaultError(read.faults)
    expect(read.readings.map((r) => r.seen)).toEqual(readings.map((r) => r.seen))
    expect(readings.find((r) => r.reads === 'I_CBO')?.seen).toMatch(/^\d+\.\d uA$/)
  })
})

describe('hands', () => {
  test('go up a range where the needle goes over', () => {
    const leaky: Device = { ...germanium, leakOhm: { cb: 1.5e6, ce: 1.2e3 } }
    const calm = rehearse(transistorSheet, { part: 'V1', device: germanium }, { seed: 1 })
    const { readings } = rehearse(transistorSheet, { part: 'V1', device: leaky }, { seed: 1 })
    const fullScale = (all: typeof readings): number =>
      rangeOf(larkfield, all.find((r) => r.reads === 'I_CEO')!.range).fullScale
    expect(fullScale(readings)).toBeGreaterThan(fullScale(calm.readings))
  })

  test('put the collector current on a mark, and read the mark', () => {
    const { readings } = rehearse(transistorSheet, { part: 'V1', device: germanium }, { seed: 3 })
    const collector = readings.filter((r) => r.reads === 'I_C')
    expect(collector.length).toBeGreaterThan(0)
    const set = transistorSheet.steps.find((s) => s.kind === 'set' && s.what === 'collector current')
    const wanted = set?.kind === 'set' ? Number(set.value) : Number.NaN
    const range = rangeOf(larkfield, collector[0]!.range)
    const marks = larkfield.scales.find((s) => s.id === range.scale)!.divisions
    expect(collector[0]!.seen).toBe(`${(wanted / range.fullScale) * marks} div`)
  })

  test('leave out what a supply cannot bring about, and say so', () => {
    const weak: Device = { kind: 'bipolar', polarity: 'pnp', card: { is: 1e-6, bf: 75, rc: 1e6 } }
    const { leftOut } = rehearse(transistorSheet, { part: 'V1', device: weak }, { seed: 1 })
    expect(leftOut.map((l) => l.why)[0]).toContain('the supply is too low for this part')
  })

  test('refuse a diode for a run sheet of a transistor', () => {
    const attempt = () => rehearse(transistorSheet, { part: 'V1', device: diode })
    expect(attempt).toThrow('The run sheet is for a bipolar transistor, and the model is that of a diode.')
  })
})

describe('a draw of errors', () => {
  test('a cause has one error wherever it stands, in proportion to its size', () => {
    const draw = new ErrorDraw(9)
    const small = draw.error(limitTerm('shunt', 'shunt', 1))
    expect(draw.error(limitTerm('shunt', 'shunt', 1, 3))).toBeCloseTo(3 * small, 15)
    expect(new ErrorDraw(9).error(limitTerm('shunt', 'shunt', 1))).toBe(small)
    expect(draw.error(limitTerm('other', 'other', 1))).not.toBe(small)
  })

  test.each(['normal', 'rectangular', 'triangular', 'arcsine'] as const)(
    '%s: mean 0, the deviation it states',
    (shape) => {
      const one = term('cause', { label: 'cause', u: 2, distribution: shape })
      const { mean, sd } = summarize(Array.from({ length: 4000 }, (_, seed) => new ErrorDraw(seed).error(one)))
      // 4 standard errors of a mean of 4,000
      expect(Math.abs(mean)).toBeLessThan((4 * 2) / Math.sqrt(4000))
      expectRelative(sd, 2, 0.05)
    },
  )
})
