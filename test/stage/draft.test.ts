import { describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import { needType } from '#core/device'
import { makeStage, stageAt, templates, wantedParts } from '#core/stage'
import {
  draftOf,
  draftOfText,
  draftText,
  faultAt,
  firstDraft,
  otherFaults,
  readDraft,
  textAt,
  withText,
} from '../../src/web/stage/draft.ts'

const types = await loadCatalog()
const polarities = ['PNP', 'NPN'] as const

describe('a draft of a template', () => {
  test.each(templates.flatMap((t) => polarities.map((polarity) => [t.id, polarity] as const)))(
    '%s, %s: can be read, is kept as text, and stands with parts of the catalog',
    (id, polarity) => {
      const draft = draftOf(id, { ...firstDraft(), polarity })
      const found = readDraft(draft)
      if (!found.ok) throw new Error(JSON.stringify(found.faults))
      expect(draftOfText(draftText(draft))).toEqual({ ok: true, draft })
      const parts = wantedParts(found.read, (name) => needType(types, name).partType)
      const outcome = stageAt(makeStage(found.read.position, parts), 25)
      expect(outcome.kind).toBe('point')
    },
  )

  test('keeps what was said of the position, and lets go of what belongs to the stage before', () => {
    const before = { ...withText(firstDraft(), ['to'], '40 C'), place: 'Q1', beta: { NTC: '3000 K' } }
    const after = draftOf('push-pull', before)
    expect(after).toMatchObject({ to: '40 C', title: firstDraft().title, stage: 'push-pull' })
    expect(Object.keys(after)).not.toContain('place')
    expect(Object.keys(after)).not.toContain('beta')
  })
})

describe('a field of a draft', () => {
  test('is set, read, and taken out where it is left empty', () => {
    const draft = withText(firstDraft(), ['values', 'R1'], '47k')
    expect(textAt(draft, ['values', 'R1'])).toBe('47k')
    expect(textAt(withText(draft, ['values', 'R1'], ''), ['values', 'R1'])).toBe('')
    expect(textAt(draft, ['values', 'R9'])).toBe('')
    expect(withText(draft, ['beta', 'NTC'], '')).toEqual(draft)
    expect(textAt(firstDraft(), ['values', 'R1'])).toBe('33 kohm')
  })

  test('says what is wrong with it; what no field shows is said apart', () => {
    const draft = withText(withText(firstDraft(), ['values', 'RC'], 'much'), ['drift'], '-3')
    const read = readDraft(draft)
    if (read.ok) throw new Error('this is no good position')
    expect(faultAt(read.faults, ['values', 'RC'])).toMatch(/^“much” .*\. Write it as/)
    expect(faultAt(read.faults, ['values', 'RE'])).toBeUndefined()
    expect(otherFaults(read.faults, [['values', 'RC'], ['drift']])).toEqual([])
    expect(otherFaults(read.faults, [['drift']])).toHaveLength(1)
    const without = readDraft(withText(firstDraft(), ['values', 'RC'], ''))
    expect(without.ok ? [] : otherFaults(without.faults, [['values', 'RC']])).toHaveLength(1)
  })
})
