import type { ESeries } from '#core/resistor'
import type {
  CoursePoint,
  PartNumbers,
  Parts,
  Position,
  RankedPart,
  ReBias,
  Spread,
  StageAnswer,
  StageVerdict,
} from '#core/stage'

/** Work for a thread of the page. */
export type Task =
  | {
      readonly kind: 'answer'
      readonly position: Position
      readonly parts: Parts
      readonly own?: Parts
      readonly state: string
    }
  | { readonly kind: 'spread'; readonly position: Position; readonly parts: Parts; readonly count: number }
  | {
      readonly kind: 'rank'
      readonly position: Position
      readonly others: Parts
      readonly drawer: readonly PartNumbers[]
    }
  | {
      readonly kind: 're-bias'
      readonly position: Position
      readonly parts: Parts
      readonly other: PartNumbers
      readonly series: ESeries
    }

/** What a part does in a position, and what the one it was made for does. */
export interface Answered {
  readonly answer: StageAnswer
  readonly course: readonly CoursePoint[]
  readonly published?: { readonly verdict: StageVerdict; readonly course: readonly CoursePoint[] }
}

export interface ReBiased {
  readonly result?: ReBias
  /** With the changes made. */
  readonly verdict?: StageVerdict
  /** Over temperature: with the first part, with the other one and nothing changed, and with the changes. */
  readonly courses: {
    readonly before: readonly CoursePoint[]
    readonly unchanged: readonly CoursePoint[]
    readonly after?: readonly CoursePoint[]
  }
  readonly advice: readonly string[]
}

/** What the thread tells. */
export type Told =
  | { readonly kind: 'done'; readonly done: number }
  | { readonly kind: 'answer'; readonly answered: Answered }
  | { readonly kind: 'spread'; readonly spread: Spread }
  | {
      readonly kind: 'ranked'
      readonly ranked: readonly RankedPart[]
      readonly leftOut: readonly { readonly name: string; readonly why: string }[]
    }
  | { readonly kind: 're-bias'; readonly reBiased: ReBiased }
  | { readonly kind: 'fault'; readonly faults: readonly string[] }

/** A thread that does what it is given, one piece after the other. */
export const startThread = (): Worker => new Worker(new URL('./thread.ts', import.meta.url), { type: 'module' })
