import fc from 'fast-check'
import { expect, test } from 'vitest'
import { anyTester } from '#core/testing'
import { asFound, foundDefaults, foundSheet, playbook, readFound, testerParts } from '#core/upkeep'

/** What must hold of every tester that can be described, whatever it is made of. */

test('an empty sheet filled with proper values conforms, and changes no range', () =>
  fc.assert(
    fc.property(anyTester, (t) => {
      const parts = testerParts(t).filter((p) => p.nominal !== undefined)
      fc.pre(parts.length > 0)
      expect(new Set(parts.map((p) => p.id)).size).toBe(parts.length)
      const sheet = foundSheet(t).split('\n')
      const filled = sheet.map((line) => {
        const part = parts.find((p) => line.startsWith(`${p.id},`))
        return part === undefined ? line : `${part.id},,${part.nominal} ${part.unit},0.01 %,`
      })
      const found = asFound(t, readFound(filled.join('\n'), 'sheet.csv', t), foundDefaults)
      for (const p of found.parts) {
        expect(p.word, p.part.id).toBe('conforms')
        expect(p.effects).toEqual([])
      }
      for (const r of found.ranges) {
        expect(r.after.error).toBe(r.before.error)
        expect(r.before.expanded).toBeGreaterThan(0)
      }
    }),
    { numRuns: 60 },
  ))

test('every fault of every tester shows finite positions, and a sound one what is right', () =>
  fc.assert(
    fc.property(anyTester, (t) => {
      const book = playbook(t)
      book.checks.forEach((c, i) => {
        expect(book.sound.values[i], c.id).toBeCloseTo(c.seen === 'part' ? 1 : 0, 9)
        expect(c.u).toBeGreaterThan(0)
      })
      for (const { fault, plays } of book.faults)
        for (const play of plays) expect(play.values.every(Number.isFinite), fault.id).toBe(true)
    }),
    { numRuns: 25 },
  ))
