import { describe, expect, test } from 'vitest'
import {
  dialTester,
  displayTester,
  outputGe,
  powerSi,
  ratioTester,
  signalDiode,
  smallSi,
  switchingGe,
  zener,
} from './bench.ref.ts'
import { planSheet, type RunSheet, type Step, sheetText } from './index.ts'

type ReadStep = Extract<Step, { kind: 'read' }>

const reads = (sheet: RunSheet): readonly ReadStep[] => sheet.steps.filter((s) => s.kind === 'read')
const read = (sheet: RunSheet, id: string): ReadStep | undefined => reads(sheet).find((s) => s.id === id)
const at = (sheet: RunSheet, id: string): number => sheet.steps.findIndex((s) => s.id === id)
const gap = (sheet: RunSheet, symbol: string): string =>
  sheet.gaps
    .filter((g) => g.symbol === symbol)
    .map((g) => g.why)
    .join(' ')

describe('a germanium switching transistor whose V_CEO is not published, at 25 degC', () => {
  const sheet = planSheet(ratioTester, switchingGe, { ambientC: 25 })

  test('short, decision, settling, leakages from the gentlest on, then gain, then saturation', () =>
    expect(reads(sheet).map((s) => s.id)).toEqual([
      'short',
      'i-cbo',
      'i-ces',
      'i-ceo',
      'i-ebo',
      'i-c-1',
      'i-b-1',
      'v-be-1',
      'i-c-2',
      'i-b-2',
      'v-be-2',
      'i-c-3',
      'i-b-3',
      'v-ce-sat',
    ]))

  test('it waits for the room before leakage, fingers off', () => {
    const settle = sheet.steps[at(sheet, 'settle')]
    expect(settle).toMatchObject({ kind: 'wait', seconds: 120 })
    expect(settle?.say).toContain('fingers off')
    expect(at(sheet, 'settle')).toBeLessThan(at(sheet, 'i-cbo'))
  })

  test('I_CBO at the tap below the published 12 V; the window says both', () => {
    expect(read(sheet, 'i-cbo')).toMatchObject({ supplyV: 9, range: '100uA', conditions: { V_CB: 9 } })
    // 5 uA of 100 uA over 50 divisions
    expect(read(sheet, 'i-cbo')?.window).toMatchObject({ unit: 'div', max: 2.5, value: { max: 5e-6, unit: 'A' } })
    expect(read(sheet, 'i-cbo')?.window?.from).toBe('published at V_CB 12 V; this run reads at V_CB 9 V')
  })

  test('in a cooler room the leakage expected is halved for each 10 K', () => {
    const cool = planSheet(ratioTester, switchingGe, { ambientC: 15 })
    expect(read(cool, 'i-cbo')?.window?.value.max).toBeCloseTo(2.5e-6, 12)
    expect(read(cool, 'i-cbo')?.window?.from).toContain('doubling each 10 K')
  })

  test('gain at 10 mA for the published 12 mA: a full scale instead of an eighth of one', () => {
    expect(read(sheet, 'i-c-1')).toMatchObject({ range: '10mA', currentA: 0.01, supplyV: 1.5 })
    expect(read(sheet, 'i-c-1')?.window?.max).toBeCloseTo(50, 6)
  })

  test('the base range is at most one range below, and the collector current is set again after it', () => {
    expect(read(sheet, 'i-b-1')?.range).toBe('1mA')
    const again = sheet.steps.slice(at(sheet, 'i-b-1-range'), at(sheet, 'i-b-1'))
    expect(again.map((s) => (s.kind === 'set' ? s.what : s.kind))).toEqual(['range', 'collector current'])
    expect(again.at(-1)?.say).toContain('again')
  })

  test('a second current and a second collector voltage for what changes between them', () => {
    expect(read(sheet, 'i-c-2')).toMatchObject({ point: 2, currentA: 0.005 })
    expect(read(sheet, 'i-c-3')).toMatchObject({ point: 3, supplyV: 3 })
    expect(read(sheet, 'i-c-3')?.say).toContain('without touching')
    expect(read(sheet, 'i-b-3')?.range).toBe(read(sheet, 'i-b-2')?.range)
  })

  test('what cannot be had is said: another voltage, another temperature, other equipment', () => {
    expect(gap(sheet, 'I_CBO')).toContain('V_CB 12 V, 80 degC')
    expect(gap(sheet, 'V_(BR)CBO')).toContain('Breakdown')
    expect(gap(sheet, 'f_hfb')).toContain('other equipment')
    expect(gap(sheet, 'h_fe')).toBe('')
  })
})

describe('a germanium output transistor on a gain dial', () => {
  const sheet = planSheet(dialTester, outputGe)

  test('gain at the published 300 mA, short because it is near the rated power', () => {
    expect(read(sheet, 'h-fe-1')).toMatchObject({ currentA: 0.3, supplyV: 1.5, safeSeconds: 5 })
    expect(read(sheet, 'h-fe-1')?.why).toContain('the ratings hold with one')
    expect(read(sheet, 'h-fe-1')?.window).toMatchObject({ unit: '1', min: 60, typ: 90, max: 175 })
  })

  test('the narrowest span that holds 60 to 175, set before the collector current is set again', () => {
    const span = sheet.steps.find((s) => s.kind === 'set' && s.what === 'gain range')
    expect(span).toMatchObject({ value: 'middle' })
    const next = sheet.steps[sheet.steps.indexOf(span!) + 1]
    expect(next).toMatchObject({ what: 'collector current', value: 0.3 })
  })

  test('I_CEO is expected from I_CBO and the gain, where it is not published', () => {
    // 10 uA x (1 + 175), a 2 K cooler room
    expect(read(sheet, 'i-ceo')?.window?.value.max).toBeCloseTo(10e-6 * 176 * 2 ** -0.2, 9)
    expect(read(sheet, 'i-ceo')?.window?.from).toContain('not published')
  })
})

describe('a small silicon transistor', () => {
  const sheet = planSheet(ratioTester, smallSi)

  test('gain and base voltage at the published point, within the taps', () => {
    expect(read(sheet, 'i-c-1')).toMatchObject({ currentA: 0.002, supplyV: 4.5 })
    expect(read(sheet, 'i-c-1')?.safeSeconds).toBeUndefined()
    expect(read(sheet, 'v-be-1')?.window?.value).toMatchObject({ min: 0.55, max: 0.7 })
  })

  test('base currents expected between those of the largest and the smallest gain', () => {
    const value = read(sheet, 'i-b-1')?.window?.value
    expect(value?.min).toBeCloseTo(0.002 / 450, 12)
    expect(value?.max).toBeCloseTo(0.002 / 110, 12)
  })

  test('a known variant of the lead order is said', () => {
    const leads = sheet.steps[at(sheet, 'leads')]
    expect(leads?.say).toContain('E-B-C')
    expect(leads?.why).toContain('reversed leads')
    expect(leads?.why).toContain('one maker C-B-E')
  })

  test('a wish is kept to where it can be, else the sheet says what can', () => {
    expect(read(planSheet(ratioTester, smallSi, { collectorA: 0.01 }), 'i-c-1')?.currentA).toBe(0.01)
    const asked = planSheet(ratioTester, smallSi, { collectorA: 3 })
    expect(read(asked, 'i-c-1')?.currentA).toBeLessThanOrEqual(0.08)
    expect(gap(asked, 'h_FE')).toContain('You asked for 3 A')
  })

  test('a display that sets its own point is told from what is published', () => {
    const shown = planSheet(displayTester, smallSi)
    expect(read(shown, 'h-fe-1')).toMatchObject({ conditions: { I_C: 0.005 }, currentA: 0.005 })
    expect(gap(shown, 'h_FE')).toContain('I_C 5 mA')
    expect(gap(shown, 'I_CBO')).toContain('offers no such test')
  })
})

describe('a power transistor of the 15 A class', () => {
  const sheet = planSheet(ratioTester, powerSi)

  test('gain at the published 4 A for seconds only, each reading from a cool part', () => {
    expect(read(sheet, 'i-c-1')).toMatchObject({ currentA: 4, range: '15A', safeSeconds: 5 })
    expect(sheet.steps.filter((s) => s.kind === 'wait' && s.id.startsWith('cool'))).toHaveLength(2)
    const wait = sheet.steps.find((s) => s.kind === 'wait' && s.id === 'cool-1')
    expect(wait?.why).toContain('Maximum ratings hold with a heat sink')
  })

  test('the base current may not be pushed past a tenth of it', () => {
    const set = sheet.steps.find((s) => s.kind === 'set' && s.what === 'collector current')
    expect(set?.say).toContain('never past 400 mA of base current')
  })

  test('10 A is out of reach and said; so is the published leakage voltage', () => {
    expect(gap(sheet, 'h_FE')).toContain('I_C 10 A')
    expect(gap(sheet, 'I_CEO')).toContain('V_CE 30 V')
  })

  test('hot parts and hazardous supplies are cautioned', () =>
    expect(sheet.cautions.map((c) => c.hazard)).toEqual([
      'breakdown and leakage supplies',
      'hazardous voltage and your local rules',
      'cells at short circuit',
      'hot parts',
    ]))
})

describe('a signal diode', () => {
  const sheet = planSheet(ratioTester, signalDiode, { ambientC: 25 })

  test('reverse leakage at the published voltage before any forward current', () => {
    expect(read(sheet, 'i-r')).toMatchObject({ supplyV: 20, supply: 'outside', conditions: { V_R: 20 } })
    expect(at(sheet, 'i-r')).toBeLessThan(at(sheet, 'v-f-1'))
  })

  test('a series resistor from supply, forward drop and wanted current, with its working', () => {
    // 9 V less 0.8 V over 9.4 mA: 872 ohm
    expect(sheet.seriesResistor).toMatchObject({ ohm: 910, series: 'E24', ratingW: 0.25, supplyV: 9 })
    expect(sheet.seriesResistor?.working).toContain('(9 V - 800 mV) / 9.4 mA')
    expect(sheet.steps[at(sheet, 'forward-resistor')]?.say).toContain('910 ohm (E24, 250 mW)')
    expect(at(sheet, 'forward-resistor')).toBeLessThan(at(sheet, 'i-f-1'))
  })

  test('the forward current stays on its scale, and is read with the voltage at three taps', () => {
    expect(reads(sheet).map((s) => s.id)).toEqual([
      'short',
      'i-r',
      'i-f-1',
      'v-f-1',
      'i-f-2',
      'v-f-2',
      'i-f-3',
      'v-f-3',
    ])
    expect(read(sheet, 'i-f-1')).toMatchObject({ range: '10mA' })
    expect(read(sheet, 'i-f-1')?.window?.max).toBeLessThanOrEqual(50)
  })

  test('its short check is made with an ohmmeter: put in the wrong way round the tester would overrun it', () => {
    expect(read(sheet, 'short')?.supplyV).toBeUndefined()
    expect(read(sheet, 'short')?.say).toContain('ohmmeter')
  })

  test('a wish for forward current is kept within the rating', () => {
    const asked = planSheet(ratioTester, signalDiode, { forwardA: 5 })
    expect(read(asked, 'i-f-1')?.currentA).toBeLessThanOrEqual(0.16)
    expect(gap(asked, 'V_F')).toContain('You asked for 5 A')
  })
})

test('a Zener diode is read forward and below its knee; its breakdown needs another set-up, worked out', () => {
  const sheet = planSheet(ratioTester, zener)
  expect(read(sheet, 'i-r')?.supplyV).toBe(1)
  expect(read(sheet, 'v-f-1')).toBeDefined()
  const zenerGap = sheet.gaps.find((g) => g.symbol === 'V_Z')
  // 1.5 x 3.5 V, half of 3.5 V over 5 mA
  expect(zenerGap?.mend).toBe('Use a supply of about 5.25 V, 350 ohm in series for 5 mA, and a voltmeter.')
})

describe('an unknown part', () => {
  test('a transistor: both polarities to be tried, small currents, the lowest supply, no reversed emitter', () => {
    const sheet = planSheet(ratioTester, undefined)
    const polarity = sheet.steps[at(sheet, 'polarity')]
    expect(polarity).toMatchObject({ value: 'PNP' })
    expect(polarity?.say).toContain('at the other')
    expect(reads(sheet).every((s) => (s.supplyV ?? 0) <= 1.5 && (s.currentA ?? 0) <= 1e-3)).toBe(true)
    expect(read(sheet, 'i-ebo')).toBeUndefined()
  })

  test('its base voltage tells the material: the window spans both', () => {
    const w = read(planSheet(ratioTester, undefined), 'v-be-1')?.window
    expect(w?.value).toMatchObject({ min: 0.1, max: 0.8 })
    expect(w?.from).toContain('germanium (100 mV to 350 mV) or silicon (550 mV to 800 mV)')
  })

  test('what the person knows is used for what to expect, not to dare more', () => {
    const told = planSheet(ratioTester, undefined, { polarity: 'NPN', material: 'Si' })
    expect(told.steps[at(told, 'polarity')]).toMatchObject({ value: 'NPN' })
    expect(read(told, 'v-be-1')?.window?.value).toMatchObject({ min: 0.55, max: 0.8 })
    expect(reads(told).every((s) => (s.currentA ?? 0) <= 1e-3)).toBe(true)
  })

  test('a diode: a milliampere through a resistor', () => {
    const sheet = planSheet(ratioTester, undefined, { family: 'diode' })
    expect(sheet.seriesResistor?.currentA).toBeLessThanOrEqual(1e-3)
    expect(read(sheet, 'v-f-1')).toBeDefined()
  })
})

describe('where nothing safe can be planned', () => {
  const only = (sheet: RunSheet): void => {
    expect(reads(sheet).map((s) => s.reads)).toEqual(['short'])
    expect(read(sheet, 'short')?.supplyV).toBeUndefined()
  }

  test('another family: leads are checked, the rest is said', () => {
    const sheet = planSheet(ratioTester, { ...smallSi, type: 'JX-1', family: 'jfet', polarity: 'N' })
    only(sheet)
    expect(gap(sheet, 'all')).toContain('not planned yet')
    expect(read(sheet, 'short')?.say).toContain('gate and source')
  })

  test('a polarity the tester has not', () => {
    const sheet = planSheet({ ...ratioTester, polarities: ['PNP'] }, smallSi)
    only(sheet)
    expect(gap(sheet, 'all')).toContain('cannot be switched to NPN')
  })

  test('a room too warm', () => {
    const sheet = planSheet(
      ratioTester,
      { ...outputGe, ratings: { ...outputGe.ratings, T_Jmax: 60 } },
      { ambientC: 55 },
    )
    expect(gap(sheet, 'all')).toContain('too warm')
  })
})

test('a sheet carries what it was made from, as plain data', () => {
  const sheet = planSheet(ratioTester, smallSi, { ambientC: 20 })
  expect(sheet).toMatchObject({ format: 'germane/sheet/1', tester: ratioTester, partType: smallSi })
  expect(sheet.wishes).toEqual({ ambientC: 20, ambientU: 2 })
  expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet)
  expect(sheetText(JSON.parse(JSON.stringify(sheet)))).toEqual(sheetText(sheet))
})

describe('a range whose calibration found it bad', () => {
  const bare = planSheet(ratioTester, switchingGe, { ambientC: 25 })
  const range = read(bare, 'I_C.1')?.range ?? reads(bare).find((s) => s.range !== undefined)!.range!
  const law = { kind: 'line', at: 0, offset: 0, slope: 0, uOffset: 0, uSlope: 0 } as const
  const bad = { range, trust: 'not trusted', why: 'The needle sticks.', from: 0, to: 1, law } as const
  const tester = {
    ...ratioTester,
    calibrations: [{ date: '2026-05-12', ranges: [{ ...bad, uReference: 0, uRepeat: 0 }] }],
  }

  test('says so at each reading on it, and nowhere else', () => {
    const sheet = planSheet(tester, switchingGe, { ambientC: 25 })
    const told = reads(sheet).filter((s) => s.why.includes('not trusted since its calibration of 2026-05-12'))
    expect(told.length).toBeGreaterThan(0)
    expect(told.map((s) => s.id)).toEqual(
      reads(sheet)
        .filter((s) => s.range === range)
        .map((s) => s.id),
    )
    expect(told[0]!.why).toMatch(/The needle sticks\. Take the reading for a rough one\.$/)
  })
})
