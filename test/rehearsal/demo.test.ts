import { expect, test } from 'vitest'
import { demo, demoParts } from '#catalog'
import { demoFile, demoReadings } from './demo.ts'

test('the readings of the demo are those of its parts, rehearsed', () => expect(demoFile()).toBe(demo.readings))

test('its places and notes name its parts', () => {
  const tags = demoParts.parts.map((p) => p.tag)
  expect(Object.keys(demo.places)).toEqual(tags)
  expect(Object.keys(demo.notes).filter((tag) => !tags.includes(tag))).toEqual([])
})

test('every part but the shorted one was read in full', () => {
  for (const part of demoParts.parts)
    expect(
      demoReadings(part).map((r) => r.reads),
      part.tag,
    ).toEqual(part.reads)
})
