import { useMemo } from 'react'
import type { TesterEntry } from '#api'
import { findType, type PartType } from '#core/device'
import { FaultError } from '#core/fault'
import { planSheet, type RunSheet, type Wishes } from '#core/sheet'
import type { Asked } from './asked.ts'

export type Planned =
  | { readonly sheet: RunSheet; readonly typeName: string; readonly wishes: Partial<Wishes>; readonly note?: string }
  | { readonly fault: string }

/** The sheet as the server will make it, by the same function. */
export function planOf(entry: TesterEntry | undefined, types: readonly PartType[], asked: Asked): Planned {
  if (entry === undefined) return { fault: 'There is no tester yet. Describe one under Testers.' }
  const name = asked.type.trim()
  const match = name === '' || /^(unknown|\?)$/i.test(name) ? undefined : findType(types, name)
  if (match !== undefined && match.found === undefined)
    return {
      fault: `No part type is called ${name}.${match.near.length === 0 ? '' : ` Near it: ${match.near.join(', ')}.`} Leave the field empty to run it as an unmarked part.`,
    }
  const ambientC = Number(asked.ambient.replace(',', '.').replace(/\s*°?\s*C$/i, ''))
  const isUnmarked = match === undefined
  const isDiode = isUnmarked && asked.family === 'diode'
  const wishes: Partial<Wishes> = {
    ambientC,
    ...(isDiode ? { family: 'diode' as const } : {}),
    ...(isUnmarked && !isDiode && asked.polarity !== '' ? { polarity: asked.polarity as 'NPN' } : {}),
    ...(isUnmarked && asked.material !== '' ? { material: asked.material as 'Ge' } : {}),
  }
  const note = match?.found?.note
  try {
    const sheet = planSheet(entry.tester, match?.found?.partType, wishes)
    return {
      sheet,
      typeName: match?.found?.partType.type ?? 'unknown',
      wishes,
      ...(note === undefined ? {} : { note }),
    }
  } catch (e) {
    if (e instanceof FaultError) return { fault: e.message }
    throw e
  }
}

/** The same while one types. */
export function usePlan(entry: TesterEntry | undefined, types: readonly PartType[], asked: Asked): Planned {
  const { type, ambient, family, polarity, material } = asked
  return useMemo(
    () => planOf(entry, types, { tester: '', tag: '', type, ambient, family, polarity, material }),
    [entry, types, type, ambient, family, polarity, material],
  )
}
