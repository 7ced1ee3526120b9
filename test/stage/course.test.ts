import { describe, expect, test } from 'vitest'
import { courseOf, makeStage, stageAt, stageSpread } from '#core/stage'
import { expectRelative } from '#core/testing'
import { linePlot } from '#report/plot'
import { stageCoursePlot } from '#report/stage'
import { partsFor, positionOf, transistor } from './positions.ts'

const p = positionOf('divider')
const parts = partsFor(p)
const s = makeStage(p, parts)

describe('a stage over temperature', () => {
  test('goes from the coldest to the hottest air, each point that of the solver alone', () => {
    const course = courseOf(s)
    expect(course.map((c) => c.temperatureC)).toEqual(Array.from({ length: 21 }, (_, k) => 2.5 * k))
    for (const c of [course[0]!, course[10]!, course[20]!]) {
      const outcome = stageAt(makeStage(p, parts), c.temperatureC)
      if (outcome.kind !== 'point') throw new Error('no point')
      expectRelative(c.ic, outcome.point.ic, 1e-7, 'I_C')
      expectRelative(c.vce, outcome.point.vce, 1e-7, 'V_CE')
    }
    // germanium leaks more as it warms: the current of the stage rises with it (any textbook on bias stability)
    for (const [k, c] of course.slice(1).entries()) expect(c.ic).toBeGreaterThan(course[k]!.ic)
  })

  test('leaves out temperatures at which the part runs away', () => {
    const hot = { ...positionOf('fixed-bias'), demands: { ...p.demands, toC: 90 } }
    const leaky = transistor({ leakageA: { low: 2e-5, usual: 2e-5, high: 2e-5 }, ratings: { rthKPerW: 300 } })
    const course = courseOf(makeStage({ ...hot, ohm: { ...hot.ohm, RC: 1 } }, { Q1: leaky }))
    expect(course.length).toBeGreaterThan(2)
    expect(course.at(-1)!.temperatureC).toBeLessThan(90)
  })
})

describe('its plot', () => {
  const outcome = stageAt(s, 25)
  if (outcome.kind !== 'point') throw new Error('no point')
  const reference = outcome.point
  const spread = stageSpread(p, parts, [0, 25, 50], { count: 40, seed: 1 })
  const plot = stageCoursePlot(p, {
    courses: [
      { name: 'OC71', points: courseOf(s) },
      { name: 'OP-4', points: courseOf(s) },
    ],
    spread,
    reference,
  })

  test('has the limits of drift about the current, and those of the signal about the voltage', () => {
    const [current, voltage] = plot.panels
    expect(current!.bounds).toEqual([reference.ic * 0.5, reference.ic * 1.5])
    const [low, high] = voltage!.bounds!
    const [down, up] = reference.rooms as [number, number]
    // by Kirchhoff's voltage law: as far as each room is larger than what the signal needs
    expectRelative(reference.vce - low!, down - 0.5, 1e-12, 'to the side of saturation')
    expectRelative(high! - reference.vce, up - 0.5, 1e-12, 'to the side of cut-off')
  })

  test('has the part drawn through, the published one dashed, and the spread whole', () => {
    expect(plot.panels[0]!.lines.map((l) => l.isDashed)).toEqual([true, false])
    expect(plot.panels[0]!.swaths![0]!.points).toEqual(
      spread.at.map((x) => ({ x: x.temperatureC, low: x.ic[0], high: x.ic[2] })),
    )
    const svg = linePlot(plot, { width: 356 })
    expect(svg).toContain('95 of 100 such stages')
    expect(svg.match(/class="swath/g)!.length).toBe(3)
    expect(plot.desc).toMatch(/OP-4, 0 °C: [\d.]+ mA, [\d.]+ V; 50 °C/)
  })

  test('of a stage that only switches has no limits', () => {
    const q = positionOf('switch')
    const found = stageCoursePlot(q, { courses: [{ name: 'x', points: courseOf(makeStage(q, partsFor(q))) }] })
    expect(found.panels.every((panel) => panel.bounds === undefined)).toBe(true)
  })
})
