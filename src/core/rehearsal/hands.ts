import type { ReadStep, RunSheet, Step } from '#core/sheet'
import { assumedDoubts, causes, type Range, type Reading, rangesFor, type TestOffer } from '#core/tester'
import { type RealTester, realAcrossOhm, realSeriesOhm, realSupply } from './real-tester.ts'
import type { KnownPart, LeftOut, Truth } from './rehearsal.ts'
import { markFor, trueAt } from './set-to-mark.ts'
import { type Asked, gainSight, type Sight, sightOf } from './shown.ts'
import {
  baseAsDiode,
  diodeAtRest,
  type Fed,
  type GainPoint,
  GainTest,
  isTransistorLeakage,
  leakageCurrent,
} from './test-circuit.ts'

type SetStep = Extract<Step, { kind: 'set' }>

/** A needle that was put on a mark and has not moved since. */
interface Standing {
  readonly sight: Sight
}

/** The hands that play a run sheet: what is set on the tester now, and what was read so far. */
export class Hands {
  readonly readings: Reading[] = []
  readonly truths: Truth[] = []
  readonly leftOut: LeftOut[] = []
  readonly #tests = new Map<string, GainTest>()
  readonly #noted: Pick<Reading, 'ambientC' | 'ambientU'>
  #supply: { readonly id: string | undefined; readonly volt: number } | undefined
  #range: Range | undefined
  /** Range the collector current was set on. */
  #collectorRange: Range | undefined
  #resistorOhm = 0
  #baseA: number | undefined = 0
  #standing: Standing | undefined
  #sets = 0

  constructor(
    readonly sheet: RunSheet,
    readonly part: KnownPart,
    readonly t: RealTester,
    readonly ambientC: number,
  ) {
    const u = sheet.tester.thermometer?.uC ?? assumedDoubts.thermometerU
    const shown = ambientC - t.draw.error(causes.thermometer(sheet.tester, u))
    this.#noted = { ambientC: Math.round(shown * 10) / 10, ambientU: u }
  }

  /** @param supplyId supply that the reading to come is fed from */
  set(step: SetStep, supplyId: string | undefined): void {
    const { what, value } = step
    if (what === 'range') this.#range = this.sheet.tester.ranges.find((r) => r.id === value)
    if (what === 'resistor') this.#resistorOhm = Number(value)
    if (what === 'supply') this.#supply = { id: supplyId, volt: Number(value) }
    if (what === 'bias') this.#collectorRange = undefined
    if (what === 'bias' || what === 'base current') this.#baseA = Number(value)
    if (what === 'supply' || what === 'bias' || what === 'base current') this.#standing = undefined
    if (what === 'collector current') this.#setCollector(Number(value), supplyId)
  }

  /** Turns the base control until the needle stands on the mark, as nearly as it can be seen. */
  #setCollector(wantedA: number, supplyId: string | undefined): void {
    if (this.#supply === undefined || this.#supply.id === undefined)
      this.#supply = { id: supplyId, volt: this.#supply?.volt ?? 0 }
    this.#collectorRange ??= this.#range ?? rangesFor(this.sheet.tester, 'I_C')[0]
    const range = this.#collectorRange
    if (range === undefined) return
    const asked: Asked = { part: this.part.part, reads: 'I_C', point: 0 }
    const mark = markFor(this.t, range, wantedA)
    const stray = this.t.draw.stream(`set ${this.part.part} ${this.#sets++}`).uniform() - 0.5
    const collectorA = trueAt(this.t, asked, range, this.ambientC, mark.at + stray * mark.step, mark.at)
    this.#baseA = this.#gainTest(range).baseFor(collectorA)
    this.#standing = this.#baseA === undefined || this.#baseA === 0 ? undefined : { sight: mark.sight }
  }

  read(step: ReadStep): void {
    const asked: Asked = {
      part: this.part.part,
      ...(this.sheet.partType === undefined ? {} : { type: this.sheet.partType.type }),
      reads: step.reads,
      // what is read before any point is written down without one, and 1 is taken
      point: Math.max(1, step.point),
    }
    if (step.supplyV !== undefined) this.#feed({ id: step.supply, volt: step.supplyV })
    const sight = this.#sight(step, asked)
    if (typeof sight === 'string') {
      this.leftOut.push({ part: this.part.part, step: step.id, why: sight })
      return
    }
    const supply = step.supplyV === undefined ? {} : { supplyV: step.supplyV }
    this.readings.push({ ...asked, ...sight, ...supply, ...this.#noted })
  }

  #feed(next: { readonly id: string | undefined; readonly volt: number }): void {
    if (this.#supply?.volt !== next.volt || this.#supply.id !== next.id) this.#standing = undefined
    this.#supply = next
  }

  /** What is seen at a read step, or why it cannot be played. */
  #sight(step: ReadStep, asked: Asked): Sight | string {
    const { reads } = step
    const { device } = this.part
    if (reads === 'short')
      return {
        shown: { kind: 'state', state: 'clear' },
        seen: 'clear',
        ...(step.range === undefined ? {} : { range: step.range }),
      }
    if (reads === 'h_FE') return this.#gainSight(step, asked)
    const range = this.sheet.tester.ranges.find((r) => r.id === step.range)
    if (range === undefined) return `The run sheet names no range for ${reads}.`
    if (isTransistorLeakage(reads)) {
      const valueOn = (r: Range): number => leakageCurrent(device, reads, this.#fed(asked, r))
      return this.#seen(asked, range, valueOn)
    }
    if (reads === 'I_R' || reads === 'I_F' || reads === 'V_F') {
      const at = (r: Range) => diodeAtRest(device, this.#fed(asked, r), reads === 'I_R')
      return this.#seen(asked, range, (r) => (reads === 'V_F' ? at(r).voltageV : at(r).currentA))
    }
    if (this.sheet.tester.gain.kind === 'digital' && reads === 'V_BE')
      return this.#seen(asked, range, (r) => baseAsDiode(device, this.#fed(asked, r)))
    return this.#pointSight(asked, range)
  }

  /** Readings at the point that the base control makes. */
  #pointSight(asked: Asked, range: Range): Sight | string {
    const { reads } = asked
    const baseA = this.#baseA
    const collector = this.#collectorRange
    if (baseA === undefined) return 'The collector current could not be set: the supply is too low for this part.'
    if (reads === 'V_CE' || reads === 'V_CE(sat)')
      return this.#seen(asked, range, (r) => new GainTest(this.part.device, this.#fed(asked, r)).at(baseA).vce)
    if (collector === undefined) return `No collector current was set before ${reads}.`
    if (reads === 'I_C') {
      const valueOn = (r: Range): number => this.#gainTest(r).at(baseA).ic
      return this.#standing === undefined ? this.#seen(asked, range, valueOn) : this.#stands(asked, valueOn(collector))
    }
    const point = this.#gainTest(collector).at(baseA)
    if (reads === 'V_BE') return this.#seen(asked, range, () => point.vbe)
    if (reads !== 'I_B') return `${reads} is not played.`
    this.#tellGain(asked, point)
    return this.#seen(asked, range, () => baseA)
  }

  #gainSight(step: ReadStep, asked: Asked): Sight | string {
    const { gain } = this.sheet.tester
    const point = gain.kind === 'digital' ? this.#ownPoint(asked, gain) : this.#point()
    if (typeof point === 'string') return point
    if (!(point.ib > 0)) return { shown: { kind: 'state', state: 'no null' }, seen: 'no null' }
    this.#tellGain(asked, point)
    return gainSight(this.t, asked, point.ic / point.ib, step.range)
  }

  #point(): GainPoint | string {
    if (this.#collectorRange === undefined || this.#baseA === undefined)
      return 'The collector current could not be set: the supply is too low for this part.'
    return this.#gainTest(this.#collectorRange).at(this.#baseA)
  }

  /** The point a display sets by itself. */
  #ownPoint(asked: Asked, own: { readonly collectorA?: number; readonly baseA?: number }): GainPoint | string {
    const test = new GainTest(this.part.device, this.#fed(asked, undefined))
    if (own.baseA !== undefined) return test.at(own.baseA)
    const baseA = own.collectorA === undefined ? undefined : test.baseFor(own.collectorA)
    return baseA === undefined ? 'The description of the tester says no point its gain is read at.' : test.at(baseA)
  }

  /** Gain as it is, and with the open-base leakage at the same collector voltage taken out. */
  #tellGain(asked: Asked, { ic, ib, vce }: GainPoint): void {
    const open = { emfV: vce, sourceOhm: 0, seriesOhm: 0, temperatureC: this.ambientC }
    const leakageA = leakageCurrent(this.part.device, 'I_CEO', open)
    this.#tell({ ...asked, symbol: 'h_FE', value: ic / ib, unit: '1' })
    this.#tell({ ...asked, symbol: 'h_FE0', value: (ic - leakageA) / ib, unit: '1' })
  }

  #tell({ part, symbol, point, value, unit }: Truth): void {
    this.truths.push({ part, symbol, point, value, unit })
  }

  #seen(asked: Asked, start: Range, valueOn: (range: Range) => number): Sight {
    const offered = this.#offers(asked).flatMap((o) => o.ranges)
    const ranges = this.sheet.tester.ranges.filter((r) => offered.includes(r.id))
    const { sight, value, range } = sightOf(this.t, asked, { ranges, start }, this.ambientC, valueOn)
    this.#tellRead(asked, range, value)
    return sight
  }

  /** The needle stands on the mark it was put on. */
  #stands(asked: Asked, value: number): Sight {
    this.#tellRead(asked, this.#collectorRange!, value)
    return this.#standing!.sight
  }

  #tellRead(asked: Asked, range: Range, value: number): void {
    this.#tell({ ...asked, symbol: asked.reads, value, unit: range.measures === 'current' ? 'A' : 'V' })
  }

  #gainTest(collector: Range): GainTest {
    const key = `${this.#supply?.id} ${this.#supply?.volt} ${collector.id}`
    const made =
      this.#tests.get(key) ?? new GainTest(this.part.device, this.#fed({ part: '', reads: 'I_C', point: 0 }, collector))
    this.#tests.set(key, made)
    return made
  }

  /** What feeds the part in a test with the meter on a range. */
  #fed(asked: Asked, range: Range | undefined): Fed {
    const { tester } = this.sheet
    const { id, volt } = this.#supply ?? { id: undefined, volt: 0 }
    const supply = tester.supplies.find((s) => s.id === id)
    const { emfV, ohm } = supply === undefined ? { emfV: volt, ohm: 0 } : realSupply(this.t, supply, volt)
    const isForward = asked.reads === 'V_F' || asked.reads === 'I_F'
    const series = (this.#offer(asked, range)?.seriesOhm ?? 0) + (isForward ? this.#resistorOhm : 0)
    const meter = range?.measures === 'current' ? realSeriesOhm(this.t, range, this.ambientC) : 0
    const across = range?.measures === 'voltage' ? { acrossOhm: realAcrossOhm(this.t, range) } : {}
    return { emfV, sourceOhm: ohm, seriesOhm: series + meter, ...across, temperatureC: this.ambientC }
  }

  #offer(asked: Asked, range: Range | undefined): TestOffer | undefined {
    const offers = this.#offers(asked)
    return offers.find((t) => range === undefined || t.ranges.includes(range.id)) ?? offers[0]
  }

  /** Tests of a reading that go with the supply that is set. */
  #offers({ reads }: Asked): readonly TestOffer[] {
    const id = this.#supply?.id
    return this.sheet.tester.tests.filter((t) => t.reads === reads && (t.supply === undefined || t.supply === id))
  }
}
