import { expect, test } from 'vitest'
import { tagProblem } from './tag.ts'

test.each(['Q7', ' Q7 ', '...', '.1', 'a/b', '<b>', '%2E'])('"%s" is a tag', (tag) =>
  expect(tagProblem(tag)).toBeUndefined(),
)

test.each(['', ' ', '.', '..', ' .. '])('"%s" is none, and it is said what to do', (tag) =>
  expect(tagProblem(tag)).toMatchObject({
    problem: expect.stringMatching(/^is no tag/),
    mend: expect.stringContaining('Q17'),
  }),
)
