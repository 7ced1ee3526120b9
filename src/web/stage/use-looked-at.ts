import { useEffect, useMemo, useState } from 'react'
import type { State } from '#core/stage'
import type { Question } from './question.ts'
import type { Answered } from './task.ts'
import { useAnswer } from './use-thread.ts'

/** A position as it is looked at: in which state, at which share of its supply, and what is answered to that. */
export interface LookedAt {
  /** The question as it was put, with the supply as it was moved. */
  readonly question?: Question
  readonly state?: State
  readonly onState: (state: string) => void
  readonly share: number
  readonly onSupply: (share: number) => void
  readonly answered?: Answered
  readonly isBusy: boolean
}

/** Keeps how a position is looked at, and has it answered in a thread. */
export function useLookedAt(question: Question | undefined): LookedAt {
  const [named, setNamed] = useState('')
  const [share, setShare] = useState(1)
  const template = question?.position.template
  const id = template?.id
  // biome-ignore lint/correctness/useExhaustiveDependencies: another stage is looked at as it is
  useEffect(() => setShare(1), [id])
  const state = template?.states.find((s) => s.name === named) ?? template?.states[0]
  const fed = useMemo(() => (question === undefined ? undefined : withSupply(question, share)), [question, share])
  const task = useMemo(
    () =>
      fed === undefined || state === undefined
        ? undefined
        : {
            kind: 'answer' as const,
            position: fed.position,
            parts: fed.parts,
            state: state.name,
            ...(fed.other === undefined || fed.own[fed.position.place] === undefined ? {} : { own: fed.own }),
          },
    [fed, state],
  )
  const { answered, isBusy } = useAnswer(task)
  return {
    ...(fed === undefined ? {} : { question: fed }),
    ...(state === undefined ? {} : { state }),
    onState: setNamed,
    share,
    onSupply: setShare,
    ...(answered === undefined ? {} : { answered }),
    isBusy,
  }
}

const withSupply = (question: Question, share: number): Question =>
  share === 1
    ? question
    : { ...question, position: { ...question.position, supplyV: question.position.supplyV * share } }
