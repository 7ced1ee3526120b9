import { expect, test } from 'vitest'
import { dotClass, markCss, markSvg, marks, outcomeClass, outcomeHtml, outcomes } from './mark.ts'

test('every outcome has a shape of its own, so that colour is never needed', () => {
  const drawn = outcomes.map((o) => `${marks[o].path} ${marks[o].draw}`)
  expect(new Set(drawn).size).toBe(outcomes.length)
  expect(new Set(outcomes.map((o) => marks[o].path)).size).toBe(outcomes.length)
})

test.each(outcomes)('%s stands as shape and word, and is styled', (o) => {
  expect(outcomeHtml(o).markup).toContain(`</svg> ${o}</span>`)
  expect(markSvg(o).markup).toContain('aria-hidden="true"')
  expect(markCss()).toContain(`.${outcomeClass(o)}{`)
  expect(markCss()).toContain(`.${dotClass(o)}{`)
})
