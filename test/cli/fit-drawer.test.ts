import { mkdirSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { curveExampleCsv } from '#core/fit'
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()

const files = Array.from({ length: 60 }, (_, i) => `drawer/d${String(i).padStart(2, '0')}.csv`)

/** The example of a diode with every current greater by a factor. */
const scaled = (factor: number): string =>
  curveExampleCsv.diode.replaceAll(/^([\d.]+),(.+)$/gm, (_, v: string, i: string) => `${v},${Number(i) * factor}`)

beforeAll(() => {
  for (const folder of ['drawer', 'mixed']) mkdirSync(g.path(folder))
  for (const [i, file] of files.entries()) g.write(file, scaled(1 + i / 10))
  g.write('mixed/a.csv', curveExampleCsv.diode)
  g.write('mixed/b.csv', 'V_F [V],I_F [A]\n0.5,none\n')
  g.write('mixed/c.csv', scaled(2))
  g.write('slow.csv', curveExampleCsv.bjt)
})

interface Fits {
  readonly fits: readonly { readonly name: string; readonly parameters: readonly { symbol: string; value: number }[] }[]
}

describe('a drawer of curves', () => {
  test('gives the same, in the order of its files, on any number of threads', async () => {
    const [one, two] = await Promise.all(
      ['1', '2'].map((n) => g.run(['fit', 'diode', 'drawer', '--workers', n, '--json'])),
    )
    const document = oneDocument(two!) as unknown as Fits
    expect(document.fits.map((f) => f.name)).toEqual(files)
    expect(two!.out).toBe(one!.out)
    // a current greater by a factor is a saturation current greater by it: the law of the diode is linear in I_S
    const saturation = document.fits.map((f) => f.parameters.find((p) => p.symbol === 'I_S')!.value)
    for (const [i, s] of saturation.entries()) expect(s / saturation[0]!).toBeCloseTo(1 + i / 10, 4)
  })

  test('a file that cannot be used does not stop the others, and is told in the document', async () => {
    const said = await g.run(['fit', 'diode', 'mixed', 'nothere.csv', '--json'])
    expect(oneDocument(said, [1])).toMatchObject({
      format: 'germane/fits/1',
      fits: [{ name: 'mixed/a.csv' }, { name: 'mixed/c.csv' }],
      unusable: [
        {
          file: 'mixed/b.csv',
          faults: [{ sentence: expect.stringMatching(/^mixed\/b\.csv, row 2, column "I_F": "none"/) }],
        },
        { file: 'nothere.csv', faults: [{ code: 'file' }] },
      ],
    })
  })

  test('for people the good ones stand on stdout and the others on stderr', async () => {
    const said = await g.run(['fit', 'diode', 'mixed'])
    expect(said.code).toBe(1)
    expect(said.out).toMatch(/^mixed\/a\.csv .*\nmixed\/c\.csv /m)
    expect(said.err).toMatch(/^mixed\/b\.csv, row 2/)
  })

  test('where none can be used the command refuses', async () => {
    expect(refusal(await g.run(['fit', 'diode', 'mixed/b.csv', 'nothere.csv']))).toMatch(
      /b\.csv, row 2.*\nnothere\.csv: is not there/,
    )
  })

  test.each(['1', '2'])('Ctrl-C ends it and prints what is done, on %s threads', async (workers) => {
    const many = Array.from({ length: 400 }, () => 'slow.csv')
    const talk = g.start(['fit', 'bjt', ...many, '--workers', workers, '--progress', '--json'])
    await new Promise<void>((keep) => talk.child.stderr?.once('data', () => keep()))
    talk.child.kill('SIGINT')
    const said = await talk.ended
    const { fits, stopped } = oneDocument({ ...said, err: '' }, [1]) as unknown as Fits & {
      stopped: { done: number; of: number }
    }
    expect(said.err).toMatch(/^\r\d+ of 400 files/)
    expect(stopped.of).toBe(400)
    expect(stopped.done).toBeLessThan(400)
    expect(fits).toHaveLength(stopped.done)
  })

  test.each([
    [['diode', 'drawer', '--workers', '0'], /--workers: "0" is no number of threads/],
    [['diode', 'drawer', '--plot', 'x.svg'], /--out names one drawing, and 60 files are to be fitted/],
    [['diode', 'mixed/a.csv', '--plot', 'x.gif'], /x\.gif: is no name of a picture/],
  ] as const)('refuses %j', async (args, sentence) => {
    expect(refusal(await g.run(['fit', ...args]))).toMatch(sentence)
  })
})

describe('the drawing of a fit', () => {
  test.each(['diode', 'bjt', 'jfet', 'mosfet'] as const)('%s: readings, law, interval and residuals', async (kind) => {
    g.write(`${kind}.csv`, curveExampleCsv[kind])
    const { out } = await g.run(['fit', kind, `${kind}.csv`, '--temperature', '23', '--plot', `${kind}.svg`])
    expect(out).toContain(`${kind}.svg is written.`)
    const svg = g.read(`${kind}.svg`)
    expect(svg).toContain('fitted law')
    expect(svg).toContain('95 % interval of the law')
    expect(svg).toContain('where 95 of 100 readings lie')
    expect(svg).not.toContain('NaN')
  })

  test('as PNG, and beside a document', async () => {
    oneDocument(await g.run(['fit', 'diode', 'diode.csv', '--plot', 'd.png', '--json']))
    expect(g.bytes('d.png').subarray(1, 4).toString()).toBe('PNG')
  })

  test('several curves in one file are not one drawing', async () => {
    g.write('two.csv', 'part,V_F,I_F\na,0.5,1e-6\na,0.6,1e-5\na,0.7,1e-4\nb,0.5,1e-6\nb,0.6,1e-5\nb,0.7,1e-4\n')
    expect(refusal(await g.run(['fit', 'diode', 'two.csv', '--plot', 'x.svg']))).toMatch(/two\.csv holds 2 curves/)
  })
})
