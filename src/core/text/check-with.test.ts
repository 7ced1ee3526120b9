import { expect, test } from 'vitest'
import { z } from 'zod'
import { explain } from '#core/fault'
import { checkWith } from './check-with.ts'
import { dataDocument } from './document.ts'
import { readYaml } from './read-yaml.ts'

const ohm = z
  .union([z.string(), z.number()])
  .transform((v, ctx) => {
    const n = Number.parseFloat(String(v))
    if (Number.isFinite(n)) return n
    ctx.addIssue({ code: 'custom', message: 'is not a resistance', params: { mend: 'Write it as 12.1 ohm.' } })
    return z.NEVER
  })
  .meta({ description: 'A resistance.', examples: ['12.1 ohm'] })

const schema = z.strictObject({
  id: z.string().min(1),
  kind: z.enum(['needle', 'digital', 'display']),
  class: z.number().positive().max(10).optional(),
  ranges: z
    .array(
      z.discriminatedUnion('circuit', [
        z.strictObject({ circuit: z.literal('shunt'), shunt: ohm, contact: ohm.optional() }),
        z.strictObject({ circuit: z.literal('multiplier'), series: ohm }),
      ]),
    )
    .min(1),
})

const say = (text: string): readonly string[] => {
  const read = readYaml(text, { file: 't.yaml' })
  if (!read.ok) throw new Error(read.faults.map(explain).join('\n'))
  const checked = checkWith(schema, read.document)
  return checked.ok ? [] : checked.faults.map(explain)
}

test('a sound document gives the output of the schema', () => {
  const read = readYaml('id: a\nkind: needle\nranges:\n  - circuit: shunt\n    shunt: 12.1 ohm\n')
  expect(read.ok && checkWith(schema, read.document)).toEqual({
    ok: true,
    data: { id: 'a', kind: 'needle', ranges: [{ circuit: 'shunt', shunt: 12.1 }] },
  })
})

test('all faults come together, each with place, value and mend', () => {
  const faults = say(`id: ""
kind: neddle
clas: 2
class: 50
ranges:
  - circuit: shunt
    shunt: twelve
    contcat: 1
  - circuit: multiplier
  - circuit: shnt
  - shunt
`)
  expect(faults).toEqual([
    't.yaml, line 1:5, id: "" is empty. Write a text.',
    't.yaml, line 2:7, kind: "neddle" is not a word allowed here. Did you mean needle? Write one of: needle, digital, display.',
    't.yaml, line 4:8, class: "50" is too large: it must be at most 10. Write a smaller number.',
    't.yaml, line 7:12, ranges[1].shunt: "twelve" is not a resistance. Write it as 12.1 ohm.',
    't.yaml, line 8:5, ranges[1].contcat: "contcat" is not a key that is known here. Did you mean contact?',
    't.yaml, line 9:5, ranges[2]: "series" is missing. Add a line such as series: 12.1 ohm (a resistance).',
    't.yaml, line 10:14, ranges[3].circuit: "shnt" is not a word allowed here. Did you mean shunt? Write one of: shunt, multiplier.',
    't.yaml, line 11:5, ranges[4]: "shunt" is not a group of keys. Write its keys on lines below, indented.',
    't.yaml, line 3:1, clas: "clas" is not a key that is known here. Keys known here: id, kind, class, ranges.',
  ])
})

test('a missing discriminating word is asked for', () => {
  expect(say('id: a\nkind: needle\nranges:\n  - shunt: 3\n')).toEqual([
    't.yaml, line 4:5, ranges[1]: "circuit" is missing. Add a line such as circuit: shunt.',
  ])
})

test('a document of the wrong kind and a list that is too short', () => {
  expect(say('just text')).toEqual([
    't.yaml, line 1:1: "just text" is not a group of keys. Write its keys on lines below, indented.',
  ])
  expect(say('id: a\nkind: needle\nranges: []')).toEqual([
    't.yaml, line 3:9, ranges: "[]" has too few items: it needs at least 1. Add to the list.',
  ])
})

test('a union of a word and a group follows the kind of what was written', () => {
  const either = z.strictObject({
    gain: z.union([z.literal('none'), z.strictObject({ kind: z.literal('dial'), step: z.number() })]).meta({
      examples: ['{ kind: dial, step: 1 }'],
    }),
  })
  const of = (data: unknown): readonly string[] => {
    const checked = checkWith(either, dataDocument(data))
    return checked.ok ? [] : checked.faults.map(explain)
  }
  expect(of({ gain: 'nope' })).toEqual([
    'gain: "nope" is not the word wanted here. Write none. Or write a group such as { kind: dial, step: 1 }.',
  ])
  expect(of({ gain: { kind: 'dial', step: 'x' } })).toEqual(['gain.step: "x" is not a number. Write a plain number.'])
  expect(of({})).toEqual(['"gain" is missing. Add a line such as gain: { kind: dial, step: 1 }.'])
})

test('data without a text names the path alone', () => {
  const checked = checkWith(
    schema,
    dataDocument({ id: 'a', kind: 'needle', ranges: [{ circuit: 'shunt', shunt: {} }] }),
  )
  expect(!checked.ok && checked.faults.map(explain)).toEqual([
    'ranges[1].shunt: "{}" is not of a kind that is known here. Write it as 12.1 ohm (a resistance).',
  ])
})
