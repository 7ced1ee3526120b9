import { describe, expect, test } from 'vitest'
import type { PartType } from '#core/device'
import { candidateTypes } from './candidates.ts'
import type { IdentifiedAs } from './identify.ts'
import { measuredIn } from './measured-in.ts'
import type { LeadReading } from './meter.ts'

const type = (name: string, more: Partial<PartType>): PartType => ({
  type: name,
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  ratings: { power: [] },
  limits: [],
  provenance: { kind: 'own', where: [] },
  ...more,
})

const gain = (min: number, max: number) => [{ symbol: 'h_FE', min, max, unit: '1', at: {} }]
const order = (text: string) => ({ order: text, view: 'below' })

/** Invented types. */
const types = [
  type('LOW', { limits: gain(20, 50), leads: order('E-B-C'), outline: 'TO-1' }),
  type('HIGH', { limits: gain(90, 200), leads: order('E-B-C'), outline: 'TO-1' }),
  type('OTHER', { limits: gain(90, 200), leads: order('B-E-C'), outline: 'TO-5' }),
  type('SILICON', { material: 'Si', limits: gain(90, 200), leads: order('E-B-C') }),
  type('NPN', { polarity: 'NPN', limits: gain(90, 200), leads: order('E-B-C') }),
]

const part: IdentifiedAs = {
  family: 'BJT',
  technology: 'germanium',
  polarity: 'PNP',
  fault: 'none',
  leads: { 1: 'C', 2: 'B', 3: 'E' },
  probability: 0.99,
  text: 'germanium PNP BJT',
}

const names = (...args: Parameters<typeof candidateTypes>) => candidateTypes(...args).types.map((t) => t.type)

describe('part types that a part may be', () => {
  test('are of its material and polarity; leads may be recorded from the other side', () => {
    expect(names(part, types)).toEqual(['LOW', 'HIGH', 'OTHER'])
    expect(candidateTypes(part, types).types[2]!.because).toEqual(['its leads are B-E-C, not these'])
  })

  test('are ranked by gain, outline and what lies in the drawer', () => {
    expect(names(part, types, { gain: 130 })[0]).toBe('HIGH')
    expect(names(part, types, { gain: 33 })[0]).toBe('LOW')
    expect(names(part, types, { outline: 'TO-5' })).toEqual(['OTHER'])
    expect(names(part, types, { inDrawer: new Map([['HIGH', 3]]) })[0]).toBe('HIGH')
  })

  test('shares add to 1, and it says when many fit', () => {
    const many = Array.from({ length: 40 }, (_, k) => type(`T${k}`, { leads: order('E-B-C') }))
    const found = candidateTypes(part, many)
    expect(found.asGoodAs).toBeCloseTo(40, 6)
    expect(found.types).toHaveLength(10)
    expect(found.say).toMatch(/^Many types fit: 40 on record/)
    const few = candidateTypes(part, types, { gain: 130 })
    expect(few.types.reduce((s, t) => s + t.share, 0)).toBeCloseTo(1, 12)
    expect(candidateTypes({ ...part, family: 'triac' }, types).say).toBe('No type on record is of this kind.')
  })
})

describe('what else speaks for a type', () => {
  test('the drawer: n parts held make a type n + 1 times as likely, and it says so', () => {
    const share = (held: number): number => {
      const { types: all } = candidateTypes(part, types, { inDrawer: new Map([['HIGH', held]]) })
      return all.find((t) => t.type === 'HIGH')!.share / all.find((t) => t.type === 'LOW')!.share
    }
    expect([share(0), share(3), share(40)]).toEqual([1, 4, 41].map((x) => expect.closeTo(x, 9)))
    const { prior, types: all } = candidateTypes(part, types, { inDrawer: new Map([['HIGH', 3]]) })
    expect(prior).toBe(
      'Your drawer counts: a type of which it holds n parts is taken as n + 1 times as likely (HIGH: 3).',
    )
    expect(all[0]).toMatchObject({ held: 3, because: expect.arrayContaining(['3 in the drawer']) })
    expect(candidateTypes(part, types)).not.toHaveProperty('prior')
  })

  test('the drop of the emitter junction, by a limit at a current not far from that of the meter', () => {
    const vbe = (min: number, max: number, I_C: number) => [{ symbol: 'V_BE(on)', min, max, unit: 'V', at: { I_C } }]
    const small = type('SMALL', { material: 'Si', polarity: 'NPN', limits: vbe(0.6, 0.7, 0.001) })
    const large = type('LARGE', { material: 'Si', polarity: 'NPN', limits: vbe(0.5, 0.6, 0.001) })
    const power = type('POWER', { material: 'Si', polarity: 'NPN', limits: vbe(0.9, 1.5, 3) })
    const npn: IdentifiedAs = { ...part, technology: 'silicon', polarity: 'NPN' }
    const found = (dropV: number) => candidateTypes(npn, [small, large, power], { dropV })
    expect(found(0.65).types[0]).toMatchObject({
      type: 'SMALL',
      because: [expect.any(String), 'V_BE(on) about 650 mV at 1 mA'],
    })
    expect(found(0.55).types[0]!.type).toBe('LARGE')
    // 3 A tell nothing of 1 mA
    expect(found(0.65).types.find((t) => t.type === 'POWER')!.because).toContain('its V_BE(on) is not on record')
  })

  test('an emitter junction that gave way at a volt or two: types that stand more are hardly it', () => {
    const rated = (name: string, V_EBO: number) => type(name, { ratings: { power: [], V_EBO } })
    const thin: IdentifiedAs = { ...part, extras: ['thin emitter junction'] }
    const found = candidateTypes(thin, [rated('ALLOY', 10), rated('MESA', 0.3)])
    expect(found.types[0]).toMatchObject({ type: 'MESA', because: expect.arrayContaining(['V_EBO 300 mV']) })
    expect(found.types[0]!.share).toBeGreaterThan(0.9)
  })

  test('the breakdown of a Zener diode', () => {
    const zener = (name: string, V: number) =>
      type(name, {
        family: 'zener',
        material: 'Si',
        limits: [{ symbol: 'V_Z', typ: V, unit: 'V', at: { I_Z: 0.005 } }],
      })
    const { polarity: _, ...diode } = part
    const found = candidateTypes(
      { ...diode, family: 'Zener diode', technology: 'silicon', leads: { 1: 'A', 2: 'K' } },
      [zener('Z5V6', 5.6), zener('Z6V2', 6.2), zener('Z12', 12)],
      { zenerV: 5.55 },
    )
    expect(found.types[0]).toMatchObject({ type: 'Z5V6', because: expect.arrayContaining(['V_Z 5.6 V']) })
    expect(found.types[0]!.share).toBeGreaterThan(0.8)
  })

  test('what is marked on it: a part of a number, or a number that goes against the readings', () => {
    const marked = (name: string) => type(name, { limits: gain(30, 90), leads: order('E-B-C') })
    const all = [marked('OC71'), marked('OC44'), marked('AC126'), marked('2N404')]
    const found = candidateTypes(part, all, { marking: '71' })
    expect(found.types[0]).toMatchObject({ type: 'OC71', because: expect.arrayContaining(['its number holds "71"']) })
    const whole = candidateTypes(part, all, { marking: 'OC 44' })
    expect(whole.types[0]!.type).toBe('OC44')
    expect(whole.marking!.says.join(' ')).toContain('The next letters stand for a transistor')
    // by Pro Electron (IEC) B is silicon
    const other = candidateTypes(part, all, { marking: 'BC107' }).marking!
    expect(other.against).toMatch(/^BC107 by the scheme .* would be silicon; the readings say germanium PNP BJT\./)
    const house = candidateTypes(part, all, { marking: 'NKT 773' }).marking!
    expect(house.says.join(' ')).toContain('NKT is a house number of Newmarket')
    expect(candidateTypes(part, all, { marking: '??' }).marking!.says).toEqual([
      '"??" fits no scheme of type numbers that is known here.',
    ])
  })
})

describe('what the readings themselves say', () => {
  const read = (plus: number, minus: number, shows: LeadReading['shows'], joined?: 'plus' | 'minus'): LeadReading => ({
    plus,
    minus,
    ...(joined === undefined ? {} : { joined }),
    shows,
  })

  test('of a PNP, collector, base, emitter at 1, 2, 3: gain, I_CBO and V_BE, each the right way round', () => {
    const readings = [
      read(1, 3, { kind: 'gain', gain: 4 }, 'minus'),
      read(3, 1, { kind: 'gain', gain: 88 }, 'minus'),
      read(2, 3, { kind: 'leak', amperes: 1e-6, volts: 3 }),
      read(2, 1, { kind: 'leak', amperes: 4e-6, volts: 3 }),
      read(1, 2, { kind: 'volts', volts: 0.22 }),
      read(3, 2, { kind: 'volts', volts: 0.23 }),
    ]
    expect(measuredIn(part, readings)).toEqual({ gain: 88, leakA: 4e-6, dropV: 0.23 })
  })

  test('of a Zener diode: its breakdown, unless nothing gave way', () => {
    const zener = { ...part, family: 'Zener diode', leads: { 1: 'K', 2: 'A' } }
    expect(measuredIn(zener, [read(1, 2, { kind: 'breakdown', volts: 5.6 })])).toEqual({ zenerV: 5.6 })
    expect(measuredIn(zener, [read(1, 2, { kind: 'breakdown', volts: 11.9 })])).toEqual({})
  })
})
