import { FaultError } from '#core/fault'
import {
  type CoursePoint,
  courseOf,
  makeStage,
  type Parts,
  type Position,
  polarityAdvice,
  rankParts,
  reBias,
  type Stage,
  stageAnswer,
  stageSpread,
  stageVerdict,
  standingAs,
} from '#core/stage'
import type { Answered, ReBiased, Task, Told } from './task.ts'

/** The thread of the page that computes what takes longer than a keystroke may. */
const tell = (told: Told): void => self.postMessage(told)

self.onmessage = (e: MessageEvent<Task>): void => {
  try {
    work(e.data)
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    tell({ kind: 'fault', faults: error.message.split('\n') })
  }
}

function work(task: Task): void {
  if (task.kind === 'answer') tell({ kind: 'answer', answered: answer(task) })
  else if (task.kind === 'spread') spread(task)
  else if (task.kind === 'rank') rank(task)
  else tell({ kind: 're-bias', reBiased: reBiased(task) })
}

const course = (position: Position, parts: Parts, state?: string): readonly CoursePoint[] => {
  const s: Stage = makeStage(position, parts)
  return courseOf(
    s,
    position.template.states.find((x) => x.name === state),
  )
}

function answer({ position, parts, own, state }: Extract<Task, { kind: 'answer' }>): Answered {
  return {
    answer: stageAnswer(position, parts, { count: 0 }),
    course: course(position, parts, state),
    ...(own === undefined
      ? {}
      : { published: { verdict: stageVerdict(position, own), course: course(position, own, state) } }),
  }
}

/** Temperatures of a spread. */
const spreadSteps = 5

function spread({ position, parts, count }: Extract<Task, { kind: 'spread' }>): void {
  const { fromC, toC } = position.demands
  const temperatures = Array.from({ length: spreadSteps + 1 }, (_, k) => fromC + (k * (toC - fromC)) / spreadSteps)
  const every = Math.max(1, Math.round(count / 20))
  const found = stageSpread(position, parts, temperatures, { count, seed: 1 }, (done) => {
    if (done % every === 0) tell({ kind: 'done', done })
  })
  tell({ kind: 'spread', spread: found })
}

/** Parts tried between two words. */
const piece = 10

function rank({ position, others, drawer }: Extract<Task, { kind: 'rank' }>): void {
  for (let k = 0; k < drawer.length; k += piece) {
    const { ranked, leftOut } = rankParts(position, others, drawer.slice(k, k + piece))
    tell({ kind: 'ranked', ranked, leftOut })
  }
  tell({ kind: 'done', done: drawer.length })
}

function reBiased({ position, parts, other, series }: Extract<Task, { kind: 're-bias' }>): ReBiased {
  const standing = standingAs(position, other)
  const after = { ...parts, [position.place]: standing }
  const result = reBias(position, parts, standing, { series })
  const changes = result?.changes ?? result?.nearest?.changes
  const changed = {
    ...position,
    ohm: { ...position.ohm, ...Object.fromEntries((changes ?? []).map((c) => [c.ref, c.toOhm])) },
  }
  return {
    ...(result === undefined ? {} : { result }),
    ...(changes === undefined ? {} : { verdict: stageVerdict(changed, after) }),
    courses: {
      before: course(position, parts),
      unchanged: course(position, after),
      ...(changes === undefined ? {} : { after: course(changed, after) }),
    },
    advice: polarityAdvice(position, other),
  }
}
