/** What is wrong with a tag, and what to do. */
export interface TagProblem {
  readonly problem: string
  readonly mend: string
}

/**
 * What is wrong with the tag of a part; undefined where nothing is. `.` and `..` are refused: in an address they mean
 * "here" and "one up" (RFC 3986, 3.3), so that the page could never show such a part.
 *
 * @example tagProblem('..')?.problem // 'is no tag: in an address it means another place'
 */
export function tagProblem(tag: string): TagProblem | undefined {
  const text = tag.trim()
  if (text === '') return { problem: 'is no tag', mend: 'Give each part a tag of its own, such as Q17.' }
  if (text === '.' || text === '..')
    return { problem: 'is no tag: in an address it means another place', mend: 'Take one such as Q17.' }
  return undefined
}
