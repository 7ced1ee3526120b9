import { describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import type { PartType } from '#core/device'
import { exactly, makeStage, reBias, stageAt, stageVerdict, templates, typeNumbers } from '#core/stage'
import { airPower, askedFor, playCheck, playPart, positionNeed, standIn, standIns } from '#core/standin'
import { diode, positionOf, transistor } from '../stage/positions.ts'

const types = await loadCatalog()
const named = (name: string): PartType => types.find((t) => t.type === name)!

const divider = positionOf('divider')
const oc71 = typeNumbers(named('OC71'), 1e-3)
const need = positionNeed(divider, { Q1: oc71 }, named('OC71'))

describe('what a position asks for', () => {
  test('voltage, current and power as the stage has them', () => {
    expect(need).toMatchObject({ family: 'bjt', polarity: 'PNP', material: 'Ge', hottestC: divider.demands.toC })
    expect(need.collectorV!.value).toBe(divider.supplyV)
    const points = [divider.demands.fromC, 25, divider.demands.toC].map((t) => {
      const outcome = stageAt(makeStage(divider, { Q1: oc71 }), t)
      if (outcome.kind !== 'point') throw new Error('the stage works')
      return outcome.point
    })
    expect(need.currentA!.value).toBeCloseTo(2 * Math.max(...points.map((p) => p.ic)), 9)
    expect(need.airW!.value).toBeGreaterThanOrEqual(Math.max(...points.map((p) => p.powerW)) * (1 - 1e-9))
  })

  test('gains and leakages at which the stage still works: inside the edge it does, a little beyond not', () => {
    const [at25] = [stageAt(makeStage(divider, { Q1: oc71 }), 25)]
    if (oc71.kind !== 'bipolar' || at25.kind !== 'point') throw new Error('the stage works')
    const doesWork = (part: typeof oc71): boolean => {
      const outcome = stageAt(makeStage(divider, { Q1: part }), 25)
      return (
        outcome.kind === 'point' &&
        Math.abs(outcome.point.ic / at25.point.ic - 1) <= divider.demands.drift &&
        stageVerdict(divider, { Q1: part }).word !== 'will not'
      )
    }
    const { value } = need.gain!.least!
    expect(doesWork({ ...oc71, gain: exactly(value * 1.001) })).toBe(true)
    expect(doesWork({ ...oc71, gain: exactly(value / 1.02) })).toBe(false)
    // the leakage is told in the hottest air, and doubles every 10 K from 25 degC
    const cool = need.leakageA!.value / 2 ** ((need.hottestC - 25) / 10)
    expect(doesWork({ ...oc71, leakageA: exactly(cool / 1.001) })).toBe(true)
    expect(doesWork({ ...oc71, leakageA: exactly(cool * 1.04) })).toBe(false)
  })

  test('a fixed bias asks for a narrower window of gain than a divider', () => {
    const part = transistor()
    const width = (id: string): number => {
      const { gain } = positionNeed(positionOf(id), { Q1: part }, undefined)
      return (gain?.most?.value ?? 1e4) / (gain?.least?.value ?? 1e-4)
    }
    expect(width('fixed-bias')).toBeLessThan(width('divider') / 5)
  })

  test('a detector asks for twice its peak in reverse (textbook)', () => {
    const p = positionOf('detector')
    const d = positionNeed(p, { D1: diode }, undefined)
    expect(d).toMatchObject({ family: 'diode', reverseV: { value: 2 * p.supplyV } })
    expect(d.collectorV).toBeUndefined()
  })

  test('a switch asks for its base to stand the supply backwards', () => {
    const p = positionOf('switch')
    expect(positionNeed(p, { Q1: transistor() }, undefined).emitterV?.value).toBe(p.supplyV)
  })

  test('a heat sink: the power counts with the case as warm as the sink lets it become', () => {
    const { caseW, airW } = positionNeed({ ...divider, heatSinkKPerW: 20 }, { Q1: oc71 }, named('OC71'))
    expect(airW).toBeUndefined()
    expect(caseW!.caseC).toBeCloseTo(divider.demands.toC + 20 * caseW!.value, 0)
  })

  test('a frequency takes the gain of the stage with it', () => {
    const { cutoff } = positionNeed(divider, { Q1: oc71 }, named('OC71'), { frequencyHz: 15e3 })
    // typical h_fe of the OC71 is 47
    expect(cutoff).toMatchObject({ symbol: 'f_hfe', hz: 15e3, gain: 47 })
  })

  test('every stage there is, in plain numbers, with how its own part does', () => {
    for (const { id, places, main } of templates) {
      const p = positionOf(id)
      const parts = Object.fromEntries(
        places.map((x) => [
          x.ref,
          x.kind === 'D' ? diode : transistor({ polarity: x.isOpposite === true ? 'NPN' : 'PNP' }),
        ]),
      )
      const n = positionNeed(p, parts, undefined)
      expect(n.own, id).toEqual(stageVerdict(p, parts))
      const numbers = askedFor(n)
      expect(numbers.length, id).toBeGreaterThanOrEqual(3)
      for (const a of numbers) expect(a.value > 0 && Number.isFinite(a.value), `${id} ${main} ${a.what}`).toBe(true)
    }
  })

  test('where only V_CBO is published it counts, as the base does not hang free', () => {
    const s = standIn(need, { name: 'OC45', type: named('OC45') })
    expect(s.checks.find((c) => c.what === 'voltage')).toMatchObject({ word: 'enough', offered: 15 })
  })

  test('hotter air than that of the position', () => {
    const hot = positionNeed({ ...divider, demands: { ...divider.demands, toC: 60 } }, { Q1: oc71 }, named('OC71'))
    expect(hot.hottestC).toBe(60)
    expect(airPower(named('OC71'), 60)!.low).toBeLessThan(airPower(named('OC71'), 50)!.low!)
  })
})

describe('a candidate played in the stage', () => {
  test('of the same material that works needs nothing', () => {
    const part = typeNumbers(named('2N404'), 1e-3)
    const play = playPart(divider, { Q1: oc71 }, part, need.own!)
    expect(play).toEqual({ verdict: stageVerdict(divider, { Q1: part }) })
    expect(playCheck(play)).toMatchObject({ word: 'enough', ratio: 1 / (1 - play.verdict.margin) })
  })

  test('of silicon gets the least change of resistors, the same as the search of that finds', () => {
    const part = typeNumbers(named('BC557'), 1e-3)
    const play = playPart(divider, { Q1: oc71 }, part, need.own!)
    const { changes } = reBias(divider, { Q1: oc71 }, part)!
    expect(play.changes).toEqual(changes)
    expect(play.changed!.word).toBe('works')
    const says = playCheck(play).says
    for (const c of changes!) expect(says).toContain(c.ref)
    expect(playCheck(play).word).toBe('care')
  })

  test('that drifts as the first part does is told so, and no resistors are looked for', () => {
    const p = positionOf('emitter-resistor')
    const first = transistor({ leakageA: exactly(3.2e-6) })
    const part = transistor({ name: 'other', leakageA: exactly(3e-6) })
    const own = stageVerdict(p, { Q1: first })
    expect(own.word).toBe('works but drifts')
    const play = playPart(p, { Q1: first }, part, own)
    expect(play).toEqual({ verdict: stageVerdict(p, { Q1: part }), isAsBefore: true })
    expect(playCheck(play)).toMatchObject({ word: 'care', says: expect.stringContaining('drifts as well') })
  })

  test('that will not work and cannot be mended is refused with what happens', () => {
    const p = positionOf('fixed-bias')
    const part = transistor({ name: 'leaky', leakageA: exactly(3e-4) })
    const play = playPart(p, { Q1: transistor() }, part, stageVerdict(p, { Q1: transistor() }))
    expect(play.verdict.word).toBe('will not')
    const check = playCheck(play)
    expect(check).toMatchObject({ word: 'short', says: expect.stringContaining(play.verdict.why) })
    const fixed = positionNeed(p, { Q1: transistor() }, undefined)
    const candidate = { name: 'leaky', type: named('2N404') }
    const { nearest } = standIns(fixed, [candidate], () => ({ play, check }))
    expect(nearest?.says).toBe(`The nearest is leaky: it fails in the stage. ${play.verdict.why}`)
  })
})
