import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { TypeNumberReading } from './number-scheme.ts'
import { explainTypeNumber, numberSchemes } from './type-number.ts'

const first = (text: string): TypeNumberReading => explainTypeNumber(text)[0]!
const told = (text: string): string => first(text).says.join(' ')

describe('explainTypeNumber', () => {
  test('JEDEC tells the number of electrodes and no more', () => {
    const r = first('2N404')
    expect(r.scheme).toBe('jedec')
    expect(r.material).toBeUndefined()
    expect(r.polarity).toBeUndefined()
    expect(r.families).toContain('bjt')
    expect(r.doesNotSay.join(' ')).toContain('NPN from PNP')
    expect(first('1N34A').families).toEqual(['diode', 'zener'])
    expect(told('1N4728A')).toContain('tolerance')
    expect(told('JANTX2N2219A')).toContain('JANTX is a quality level')
    expect(told('1N1183R')).toContain('reversed polarity')
  })

  test.each([
    ['AC128', 'Ge', 'a low-power transistor for audio frequencies'],
    ['AF114', 'Ge', 'a low-power transistor for high frequencies'],
    ['AD161', 'Ge', 'a power transistor for audio frequencies'],
    ['ASY27', 'Ge', 'a low-power transistor for switching'],
    ['BC108', 'Si', 'a low-power transistor for audio frequencies'],
    ['BFY51', 'Si', 'A third letter marks a professional or industrial type.'],
    ['BY127', 'Si', 'a rectifier'],
    ['BZX79-C5V1', 'Si', 'C5V1 stands for 5.1 V, tolerance 5 %.'],
    ['BT151-500', 'Si', 'The suffix stands for 500 V.'],
    ['BC548B', 'Si', 'gain rank'],
    ['BD139-10', 'Si', 'gain rank'],
    ['BC182L', 'Si', 'another lead order'],
  ])('Pro Electron: %s is %s and %s', (text, material, part) => {
    expect(first(text)).toMatchObject({ scheme: 'pro-electron', material })
    expect(first(text).polarity).toBeUndefined()
    expect(told(text)).toContain(part)
  })

  test('old European: OC tells a transistor, germanium below 200, and never the polarity', () => {
    expect(first('OC71')).toMatchObject({ scheme: 'old-european', material: 'Ge' })
    expect(first('OC200').material).toBe('Si')
    expect(first('OA202').material).toBe('Si')
    expect(first('OA81')).toMatchObject({ material: 'Ge', families: ['diode'] })
    expect(first('OCP71').material).toBeUndefined()
    expect(first('OAZ203')).toMatchObject({ material: 'Si', families: ['zener'] })
    expect(first('OC139').polarity).toBeUndefined()
    expect(first('OC139').doesNotSay.join(' ')).toContain('OC does not tell PNP from NPN')
  })

  test.each([
    ['2SA12', 'PNP', 'high'],
    ['2SB54', 'PNP', 'low'],
    ['2SC458', 'NPN', 'high'],
    ['2SD72', 'NPN', 'low'],
  ])('JIS: %s is %s for %s frequencies', (text, polarity, band) => {
    expect(first(text)).toMatchObject({ scheme: 'jis', polarity, sure: true })
    expect(told(text)).toContain(`${band} frequencies`)
    expect(first(text).material).toBeUndefined()
  })

  /** Second letters of the Pro Electron designation code, read in public transcriptions. */
  test.each([
    ['AA119', 'signal', ['diode']],
    ['BB105', 'variable-capacitance', ['diode']],
    ['AC128', 'low-power transistor for audio', ['bjt']],
    ['BD139', 'power transistor for audio', ['bjt']],
    ['AE100', 'tunnel diode', undefined],
    ['BF194', 'low-power transistor for high', ['bjt']],
    ['BG100', 'oscillator diode', undefined],
    ['BH100', 'magnetic', undefined],
    ['BLY33', 'power transistor for high', ['bjt']],
    ['CNY17', 'optocoupler', undefined],
    ['BPW34', 'photodiode', undefined],
    ['CQY40', 'light-emitting', undefined],
    ['BRY39', 'breakdown characteristic', ['scr', 'ujt']],
    ['BSX20', 'low-power transistor for switching', ['bjt']],
    ['BT151', 'thyristor', ['scr', 'triac']],
    ['BU208', 'power transistor for switching', ['bjt']],
    ['BXY27', 'multiplier', undefined],
    ['BY127', 'rectifier', ['diode']],
    ['BZY88', 'voltage reference', ['zener']],
  ] as const)('Pro Electron, second letter of %s: %s', (text, part, families) => {
    expect(first(text)).toMatchObject({ scheme: 'pro-electron' })
    expect(told(text)).toContain(part)
    if (families === undefined) expect(first(text).families).toBeUndefined()
    else for (const family of families) expect(first(text).families).toContain(family)
  })

  /** Letters of JIS C 7012, read in public transcriptions. */
  test.each([
    ['2SA12', 'PNP transistor for high', ['bjt']],
    ['2SB54', 'PNP transistor for low', ['bjt']],
    ['2SC458', 'NPN transistor for high', ['bjt']],
    ['2SD72', 'NPN transistor for low', ['bjt']],
    ['2SF100', 'thyristor', ['scr']],
    ['2SH12', 'unijunction', ['ujt']],
    ['2SJ50', 'P-channel', ['jfet', 'mosfet']],
    ['2SK30', 'N-channel', ['jfet', 'mosfet']],
    ['2SM100', 'triac', ['triac']],
    ['1SE11', 'Esaki', undefined],
    ['1SG11', 'Gunn', undefined],
    ['1SR11', 'rectifier', ['diode']],
    ['1SS53', 'signal diode', ['diode']],
    ['1ST11', 'avalanche', undefined],
    ['1SV50', 'variable-capacitance', undefined],
    ['1SZ11', 'Zener', undefined],
  ] as const)('JIS, letter of %s: %s', (text, part, families) => {
    expect(first(text)).toMatchObject({ scheme: 'jis' })
    expect(told(text)).toContain(part)
    for (const family of families ?? []) expect(first(text).families).toContain(family)
  })

  test('JIS: field-effect, thyristor, diodes, and markings without 2S', () => {
    expect(first('2SK30').polarity).toBe('N')
    expect(first('2SJ50').polarity).toBe('P')
    expect(first('2SH12').families).toEqual(['ujt'])
    expect(first('1S1588').families).toEqual(['diode', 'zener'])
    expect(told('1SS53')).toContain('a signal diode')
    expect(first('C1815')).toMatchObject({ scheme: 'jis', polarity: 'NPN', sure: false })
    expect(told('C1815')).toContain('2SC1815')
  })

  test('Soviet numbers, in either alphabet', () => {
    expect(first('MP39')).toMatchObject({ scheme: 'soviet', material: 'Ge' })
    expect(first('МП42Б')).toMatchObject({ scheme: 'soviet', material: 'Ge' })
    expect(first('MP116').material).toBe('Si')
    expect(first('GT308B')).toMatchObject({ material: 'Ge', families: ['bjt'] })
    expect(told('КТ315Г')).toContain('low power, high frequency')
  })

  test('house numbers, from memory', () => {
    expect(first('TIP41C')).toMatchObject({ scheme: 'house', material: 'Si', families: ['bjt'] })
    expect(first('NKT275').material).toBeUndefined()
    expect(first('CV7003').doesNotSay.length).toBeGreaterThan(0)
    expect(first('MPF102').families).toContain('jfet')
  })

  test('what fits no scheme has no reading', () => {
    expect(explainTypeNumber('GX-17')).toEqual([])
    expect(explainTypeNumber('')).toEqual([])
  })

  test('every scheme names its source, and every reading is made of whole sentences', () => {
    expect(numberSchemes.every((s) => s.source.length > 10)).toBe(true)
    const numbers = [
      '2N404A',
      'AC128',
      'OC71',
      '2SB54',
      'MP39B',
      'TIP41C',
      'C1815',
      'BZX79-C5V1',
      '3N140',
      '4N25',
      'KT315',
    ]
    const sentences = numbers.flatMap((n) => explainTypeNumber(n).flatMap((r) => [...r.says, ...r.doesNotSay]))
    expect(sentences.length).toBeGreaterThan(30)
    expect(sentences.filter((s) => !/^["A-Z0-9].*\.$/.test(s))).toEqual([])
  })

  test('any text at all is answered, the sure readings first', () => {
    const any = fc.stringMatching(/^[0-9A-Z]{0,3}[A-Z]?\d{0,4}[A-Z]{0,2}$/)
    fc.assert(
      fc.property(any, (text) => {
        const sure = explainTypeNumber(text).map((r) => r.sure)
        expect(sure.lastIndexOf(true)).toBeLessThanOrEqual(
          sure.indexOf(false) === -1 ? sure.length : sure.indexOf(false),
        )
      }),
    )
  })
})
