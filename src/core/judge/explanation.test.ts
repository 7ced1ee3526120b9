import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { guardBand } from './conformance.ts'
import { judgeDefaults } from './judge.ts'
import { nearness } from './nearness.ts'

const page = readFileSync(join(import.meta.dirname, '..', '..', '..', 'docs', 'explanation', 'verdicts.md'), 'utf8')

/** The row of the page's table that speaks of a change. */
const row = (start: string): string => {
  const found = page.split('\n').find((line) => line.startsWith(`| ${start}`))
  expect(found, start).toBeDefined()
  return found!
}

test('the explanation of verdicts states the distances that the code uses', () => {
  expect(row('leakage against temperature')).toContain(`up to ${nearness.leakageK} K`)
  expect(row('leakage against voltage')).toContain(`up to ${nearness.leakageVoltage} times`)
  expect(row('gain against collector current')).toContain(`up to ${nearness.gainCurrent} times`)
  expect(row('gain against collector voltage')).toContain(`up to ${nearness.gainVoltage} times`)
  expect(row('gain against collector voltage')).toContain(`above ${nearness.saturationV} V`)
  expect(row('gain, V_BE, V_F against temperature')).toContain(`up to ${nearness.gentleK} K`)
  expect(row('V_BE, V_F against current')).toContain(`up to ${nearness.junctionCurrent} times`)
  expect(page).toContain(`${100 * nearness.breakdownShare} % of the breakdown rating`)
})

test('and the rule', () => {
  const { probability } = judgeDefaults.rule
  expect(page).toContain(`the default, ${100 * probability} %`)
  expect(page).toContain(`${guardBand(1, probability).toFixed(2)} standard uncertainties`)
})
