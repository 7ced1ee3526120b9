import type { Verdict, VerdictWord } from './verdict.ts'

/** What a part's result says of it as a whole. */
const worstFirst: readonly VerdictWord[] = ['does not conform', 'undecided', 'conforms', 'not comparable']

/**
 * A part in one word: the worst of its verdicts. A shorted or open part does not conform; one without verdicts has no
 * word.
 */
export function partWord(
  state: 'measured' | 'short' | 'open',
  verdicts: readonly Pick<Verdict, 'verdict'>[],
): VerdictWord | undefined {
  if (state !== 'measured') return 'does not conform'
  return worstFirst.find((word) => verdicts.some((v) => v.verdict === word))
}
