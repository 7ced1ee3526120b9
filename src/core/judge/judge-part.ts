import type { PartType } from '#core/device'
import type { PartResult } from '#core/reduce'
import { type JudgeOptions, judge } from './judge.ts'
import type { Verdict, VerdictWord } from './verdict.ts'

/** A whole part in one word. */
export interface PartVerdict {
  readonly part: string
  readonly type?: string
  /** The worst of its verdicts; what could not be compared does not count, unless nothing could. */
  readonly word: Exclude<VerdictWord, 'not comparable'>
  /** One sentence. */
  readonly why: string
  readonly verdicts: readonly Verdict[]
}

const worstFirst = ['does not conform', 'undecided', 'conforms'] as const

/**
 * Judges one part against its type.
 *
 * @param type its published record; left out where none is known
 */
export function judgePart(
  result: PartResult,
  type: PartType | undefined,
  options: Partial<JudgeOptions> = {},
): PartVerdict {
  const head = { part: result.part, ...(result.type === undefined ? {} : { type: result.type }) }
  if (result.state !== 'measured')
    return {
      ...head,
      word: 'does not conform',
      why: result.state === 'short' ? 'It is shorted.' : 'It is open.',
      verdicts: [],
    }
  if (type === undefined)
    return { ...head, word: 'undecided', why: 'No published record of its type is known.', verdicts: [] }
  const verdicts = judge(result.parameters, type, options)
  const nonsense = result.doubts.find((d) => d.weight === 'nonsense')
  const word = worstFirst.find((w) => verdicts.some((v) => v.verdict === w))
  if (word === undefined)
    return { ...head, word: 'undecided', why: 'Nothing could be compared with a limit.', verdicts }
  if (word === 'conforms' && nonsense !== undefined) return { ...head, word: 'undecided', why: nonsense.say, verdicts }
  return { ...head, word, why: reason(word, verdicts), verdicts }
}

function reason(word: VerdictWord, verdicts: readonly Verdict[]): string {
  const those = verdicts.filter((v) => v.verdict === word)
  if (word === 'conforms')
    return `It meets ${those.length === 1 ? 'the limit' : `the ${those.length} limits`} it could be held against.`
  return those[0]!.why
}
