import { describe, expect, test } from 'vitest'
import { foundExampleCsv } from '#core/upkeep'
import { germane, oneDocument } from './germane.ts'
import { called } from './here.ts'

const tester = (...args: readonly string[]) => called(['tester', ...args])
const g = germane()

describe('tester found', () => {
  test('prints the empty sheet, and reads it filled', async () => {
    const sheet = (await tester('found', 'marlpit', '--sheet')).out
    expect(sheet).toMatch(/^part,should be,measured,accuracy,how\nmovement,49\.25 µA to 50\.75 µA,,,/)
    const filled = sheet.replace('49.25 µA to 50.75 µA,,', '49.25 µA to 50.75 µA,50.1 uA,0.2 %')
    const said = await g.run(['tester', 'found', 'marlpit', '-'], { input: filled })
    expect(said.out).toContain('1 of 1 parts conform')
    expect(said.code).toBe(0)
  })

  test('names what is out, what it does and what mends it, and exits with 1', async () => {
    const said = await tester('found', 'larkfield', 'examples/found.csv')
    expect(said.code).toBe(1)
    expect(said.out).toMatch(/shunt 10 mA .* x does not conform +<0\.1 % +\+8\.9 % +10 mA/)
    expect(said.out).toMatch(/shunt 10 mA: Put a new one in its place\. 11 Ω of 0\.125 W in series with/)
    expect(said.out).toMatch(/^10 mA +\+9\.16 % .* \+0\.23 %/m)
    expect(said.out).toMatch(/fuse or resistor at the cell/)
  })

  test('takes another series and a surer verdict', async () => {
    const said = await tester('found', 'larkfield', 'examples/found.csv', '--series', 'e96', '--sure', '99.95 %')
    expect(said.out).toContain('E96')
    expect(said.out).toMatch(/shunt 3 A .* \? undecided/)
  })

  test('is one document from standard input', async () => {
    const said = await g.run(['tester', 'found', 'larkfield', '-', '--json'], { input: foundExampleCsv })
    const { parts, ranges } = oneDocument(said, [1]) as unknown as {
      readonly parts: readonly { readonly part: string; readonly verdict: string }[]
      readonly ranges: readonly unknown[]
    }
    expect(parts.find((p) => p.part === 'contact 1 A')?.verdict).toBe('does not conform')
    expect(ranges).toHaveLength(12)
  })
})

describe('tester diagnose', () => {
  test('says ties and where to look next', async () => {
    const said = await tester('diagnose', 'larkfield', '--saw', '1 V: none', '--saw', '10 V: right')
    expect(said.code).toBe(0)
    expect(said.out).toMatch(/1 tie .*multiplier 1 V is open/)
    expect(said.out).toMatch(/1 tie .*the switch contact that feeds 1 V does not make/)
    expect(said.out).toContain('The first 2 are a tie: what was seen cannot tell them apart.')
    const next = await tester('diagnose', 'larkfield', '--saw', '100 uA: none')
    expect(next.out).toMatch(/Next\n {2}Look at 1 V\./)
  })

  test('reads lines from standard input, notes left out', async () => {
    const said = await g.run(['tester', 'diagnose', 'larkfield', '-'], {
      input: '# at rest\nrest: +4 div\nall: high\n',
    })
    expect(said.out).toMatch(/1 .*the needle is bent or its zero is off, about \+\d/)
  })

  test('exits with 1 where no single fault shows it all', async () => {
    const said = await tester(
      'diagnose',
      'larkfield',
      '--saw',
      '10 mA: pegged',
      '--saw',
      '10 V: none',
      '--saw',
      'others: right',
    )
    expect(said.code).toBe(1)
    expect(said.out).toContain('No single fault shows all this')
  })

  test('says where a sound tester would do', async () =>
    expect((await tester('diagnose', 'larkfield', '--saw', 'all: right')).out).toContain(
      'A sound tester may show this',
    ))
})

describe('what cannot be is refused with field, value and mend', () => {
  test.each([
    [['found', 'larkfield'], /No sheet was named\. .*--example/],
    [['found', 'larkfield', 'examples/found.csv', '--sheet'], /A file and --sheet were both given/],
    [['found', 'larkfield', 'examples/found.csv', '--series', 'E25'], /--series: "E25" .*E3, E6, E12/],
    [['found', 'larkfield', 'examples/found.csv', '--sure', '20 %'], /--sure: "20 %" is no such probability/],
    [['found', 'marlpit', 'examples/found.csv'], /"shunt 1 mA" is no part of Marlpit ring tester/],
    [['diagnose', 'larkfield'], /Nothing is said of what was seen\. .*--saw/],
    [['diagnose', 'tallow', '--saw', 'all: low'], /tester: "tallow" has no needle movement/],
    [['diagnose', 'larkfield', '--checks', '--saw', 'all: low'], /--checks and what was seen were both given/],
    [['diagnose', 'larkfield', '--saw', '5 mA: low'], /no place to look at on Larkfield bench tester called "5 mA"/],
  ])('%j', async (args, say) => {
    const said = await tester(...args)
    expect(said.code).toBe(2)
    expect(said.faults).toMatch(say)
    expect(said.out).toBe('')
  })
})
