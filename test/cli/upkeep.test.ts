import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { called } from './here.ts'

const tester = (...args: readonly string[]) => called(['tester', ...args])
const movement = ['--movement', '100 uA', '--coil', '1 kohm']
const cells = ['cells', '--count', '3', '--rest', '4.5 V', '--loaded', '4.2 V', '--current', '500 mA']

describe('what is asked for is done', () => {
  test('a code and its colours say the same resistor, whatever its case', async () => {
    const { out } = await tester('code', '4k7j')
    expect((await tester('code', 'Yellow', 'violet', 'RED', 'gold')).out).toBe(out)
    expect((await tester('code', '4.7 kohm +- 5 %')).out).toBe(out)
  })

  test('the movement of a tester is taken, and an option goes before it', async () => {
    const own = await tester('shunt', '10 mA', '--tester', 'larkfield')
    expect(own.out).toContain('Movement 100 µA, 1.1 kΩ, 0.39 %/K')
    const other = await tester('shunt', '10 mA', '--tester', 'larkfield', '--coil', '900 ohm')
    expect(other.out).toContain('Movement 100 µA, 900 Ω, 0.39 %/K')
  })

  test('cautions stand where high voltage, high current or cells are used, and not elsewhere', async () => {
    expect((await tester('shunt', '10 mA', ...movement)).out).not.toContain('Take care')
    expect((await tester('shunt', '100 V', ...movement)).out).toMatch(/IEC\s+61010-1/)
    expect((await tester('shunt', '5 A', ...movement)).out).toMatch(/fuse\s+or\s+resistor\s+at\s+the\s+cell/)
    expect((await tester('wire', '0.01', '--current', '20 A')).out).toContain('hot parts')
    expect((await tester('protect', '--range', '10 V', ...movement, '--source', '250 V')).out).toMatch(/IEC\s+61010-1/)
    expect((await tester(...cells)).out).toContain('leaking cells')
  })

  test('a grey tolerance is told to have meant something else before', async () => {
    expect((await tester('code', 'brown', 'black', 'black', 'red', 'grey')).out).toMatch(
      /Before 2016 grey stood for 0\.05 %/,
    )
    expect((await tester('code', 'brown', 'black', 'black', 'red', 'brown')).out).not.toContain('2016')
  })

  test('a multiplier of high voltage is told to be split', async () => {
    expect((await tester('shunt', '600 V', ...movement)).out).toMatch(/600 V: at least 3 resistors in series/)
    expect((await tester('shunt', '150 V', ...movement)).out).not.toContain('resistors in series')
  })

  test('a range of the tester is found as people type it', async () => {
    const said = await tester('protect', '--tester', 'larkfield', '--range', '10MA')
    expect(said.out).toContain('across the movement on 10 mA')
  })
})

describe('the exit code is 1', () => {
  test.each([
    [['resistor', '4k53', '--series', 'E3', '--within', '0.01 %'], /nothing within/],
    [['movement', 'examples/movement.csv', '--class', '0.5'], /does not conform/],
    [['protect', '--range', '1 mA', ...movement, '--source', '9 V'], /no diode helps/],
    [['cells', '--count', '3', '--rest', '3.3 V', '--loaded', '3 V', '--current', '0.1 A'], /to be changed/],
  ])('for %j', async (args, say) => {
    const said = await tester(...args)
    expect(said.code).toBe(1)
    expect(said.out).toMatch(say)
  })

  test('and 0 where all is well', async () => {
    expect((await tester('resistor', '4k7')).code).toBe(0)
    expect((await tester('movement', 'examples/movement.csv', '--class', '1')).code).toBe(0)
    expect((await tester('protect', '--tester', 'larkfield', '--range', '10 mA')).code).toBe(0)
    expect((await tester(...cells)).code).toBe(0)
  })
})

describe('what cannot be is refused with field, value and mend', () => {
  test.each([
    [['code', 'gold', 'mauve', 'red', 'white'], /band 1: "gold"[\s\S]*band 2: "mauve"[\s\S]*band 4: "white"/],
    [['code', '0', 'ohm'], /marking: "0 ohm" is not above 0\./],
    [['resistor', '100', '--series', 'E25'], /--series: "E25" .*E3, E6, E12/],
    [['resistor', '100', '--current', '1 A', '--voltage', '1 V'], /--current and --voltage were both given/],
    [['shunt', '1 mA'], /No movement was described\. .*--movement/],
    [['shunt', '1 mA', '--tester', 'tallow'], /--tester: "tallow" has no needle movement\. /],
    [['shunt', '50 uA', ...movement], /50 µA is below the movement; it must be at least 100 µA/],
    [['shunt', '1 mA', ...movement, '--ring', '100 ohm'], /ring is 100 Ω; it must be at least 111\.111 Ω/],
    [['shunt', '1 mA', ...movement, '--tolerance', '200 %'], /--tolerance: "200 %" is more than the whole\./],
    [['shunt', '1 mA', ...movement, '--from', '40', '--to', '10'], /--from: "40" is above the 10 of --to\./],
    [['shunt', '1 mA', ...movement, '--swamp', '1k', '--drift', '0.1 %/K'], /--swamp and --drift were both given/],
    [['ohms', '--mid', '100 kohm', ...movement], /must be below .* ohm for this movement and cell/],
    [['wire', '0.1', '--current', '1 A', '--gauge', '41'], /--gauge: "41" .*0000 to 40/],
    [['coil'], /Nothing that was measured is given/],
    [['coil', '--half', '990 ohm', '--series', '100 ohm'], /do not belong together/],
    [['movement'], /No table was named/],
    [['protect', '--range', '5 mA', '--tester', 'larkfield'], /no range .* called "5 mA"\. Near it:/],
    [['dial', '--fixed', '1 kohm'], /Nothing is said of the pot/],
    [['dial', '--fixed', '1 kohm', '--pot', '10 kohm'], /The mark 20 is 200 % of the pot/],
    [['dial', '--fixed', '1k', '--pot', '100k', '--bridge', 'divider', '--dial', 'collector'], /no place for the dial/],
    [
      ['cells', '--count', '2.5', '--rest', '3 V', '--loaded', '2 V', '--current', '1 A'],
      /--count: "2\.5" is no count/,
    ],
    [['cells', '--count', '3', '--rest', '4.5 V', '--loaded', '4.6 V', '--current', '1 A'], /below the 4\.5 V at rest/],
  ])('%j', async (args, say) => {
    const said = await tester(...args)
    expect(said.code).toBe(2)
    expect(said.faults).toMatch(say)
    expect(said.out).toBe('')
  })
})

describe('a sheet as a file', () => {
  const folder = mkdtempSync(join(tmpdir(), 'germane-sheets-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  const written = async (file: string, ...args: readonly string[]) => {
    const said = await tester(...args, '--out', join(folder, file))
    return { said, bytes: said.code === 2 ? Buffer.alloc(0) : readFileSync(join(folder, file)) }
  }
  const dial = ['dial', '--fixed', '1 kohm', '--pot', '100 kohm']

  // PNG: the 8-byte signature, width and height in the IHDR chunk (W3C PNG, 5.2 and 11.2.2)
  test('is a drawing where the name ends in .svg or .png, and else a page', async () => {
    const png = (await written('dial.png', ...dial)).bytes
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG')
    expect(png.readUInt32BE(16)).toBeGreaterThan(1000)
    expect((await written('dial.svg', ...dial)).bytes.toString()).toContain('<title>Errors of the gain dial</title>')
    for (const args of [dial, [...cells, '2 A'], ['protect', '--tester', 'larkfield', '--range', '10 mA']])
      expect((await written('page.html', ...args)).bytes.toString()).toMatch(/^<!DOCTYPE html>[\s\S]*<table/)
  })

  test('is refused as a drawing where there is none', async () => {
    const { said } = await written('cells.png', ...cells)
    expect(said.faults).toMatch(/cells\.png: asks for a drawing, and this sheet has none\. Let the name end in \.html/)
  })
})
