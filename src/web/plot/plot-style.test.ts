import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { circuitCss, courseCss, lineCss } from '#report/plot'

/** Rules without blanks; `.25` and `0.25` are one. */
const bare = (text: string): string =>
  text
    .replaceAll(/\s+/g, '')
    .replaceAll(';}', '}')
    .replaceAll(/(?<!\d)0\./g, '.')

test('the page draws curves, courses and circuits as the report does', () => {
  const css = bare(readFileSync(join(import.meta.dirname, 'plot.css'), 'utf8'))
  const rules = [...lineCss().split('\n'), ...courseCss().split('\n'), ...circuitCss().split('\n')]
  expect(rules.length).toBeGreaterThan(20)
  for (const rule of rules) expect(css).toContain(bare(rule))
})
