/** A number of a scale, as it is printed there. */
export const plainText = (x: number): string => String(Number(x.toPrecision(6)))

/** Seconds as a person counts them: `45 s`, `2 min 05 s`. */
export function secondsText(seconds: number): string {
  const s = Math.max(0, Math.ceil(seconds))
  if (s < 100) return `${s} s`
  return `${Math.floor(s / 60)} min ${String(s % 60).padStart(2, '0')} s`
}

/** The first sentence of a step, which is said large, and the rest. */
export function firstSentence(say: string): readonly [first: string, rest: string] {
  const cut = say.search(/\. (?=[A-Z])/)
  return cut < 0 ? [say, ''] : [say.slice(0, cut + 1), say.slice(cut + 2)]
}
