/** A mark on a printed scale. */
export interface FaceMark {
  /** Where it stands, 0 at rest and 1 at full scale. */
  readonly at: number
  /** The number printed there. */
  readonly label?: string
  readonly isLong: boolean
}

const nice: readonly number[] = [1, 2, 2.5, 5, 10]

/** Step between printed numbers: a nice one that gives no more than `most` of them and falls on division marks. */
function numberStep(end: number, divisions: number, most: number): number {
  const division = end / divisions
  const decade = 10 ** Math.floor(Math.log10(end / most))
  const steps = [1, 10, 100].flatMap((d) => nice.map((n) => n * d * decade))
  const falls = (step: number): boolean => Math.abs(step / division - Math.round(step / division)) < 1e-6
  const even = (step: number): boolean => Math.abs(end / step - Math.round(end / step)) < 1e-6
  return steps.find((s) => end / s <= most && falls(s) && even(s)) ?? end
}

/** Marks of a scale as its divisions stand, numbers at nice places. */
export function faceMarks(divisions: number, end: number, mostNumbers = 6): readonly FaceMark[] {
  const step = numberStep(end, divisions, mostNumbers)
  const perNumber = Math.round(step / (end / divisions))
  const every = divisions > 80 ? Math.max(1, Math.round(divisions / 50)) : 1
  const marks: FaceMark[] = []
  for (let i = 0; i <= divisions; i += every) {
    const isNumber = i % perNumber === 0
    const isHalf = perNumber % 2 === 0 && i % (perNumber / 2) === 0
    const at = i / divisions
    const label = Number((at * end).toPrecision(6)).toString()
    marks.push({ at, isLong: isNumber || isHalf, ...(isNumber ? { label } : {}) })
  }
  return marks
}
