import type { Device, NamedDevice } from '#core/circuit'
import { allFormulas, reduceReadings } from '#core/reduce'
import { type LeftOut, rehearse, specimen, type Truth } from '#core/rehearsal'
import type { RunSheet } from '#core/sheet'
import type { Reading } from '#core/tester'
import { bestInterval } from '#core/uncertainty'

export interface RehearseInput {
  readonly sheet: RunSheet
  readonly devices: readonly NamedDevice[]
  /** How many parts of each model. */
  readonly parts: number
  /** How far parts of one model lie apart, as a part; used where there are several. */
  readonly spread: number
  /** Real temperature of the room, degC. */
  readonly ambientC: number
  readonly seed: number
}

/** A truth, and what the readings make of it. */
export interface TruthHeld extends Truth {
  /** What the readings reduce to; left out where they give no number. */
  readonly read?: { readonly value: number; readonly interval95: readonly [number, number] }
}

/** A run sheet played with one or more known parts. */
export interface PlayedLot {
  readonly sheet: RunSheet
  readonly seed: number
  readonly ambientC: number
  readonly readings: readonly Reading[]
  readonly truths: readonly TruthHeld[]
  readonly leftOut: readonly LeftOut[]
}

/** The parts of a lot with their tags: the name of the model, and a number where it stands for several. */
function partsOf({ devices, parts, spread, seed }: RehearseInput): readonly { part: string; device: Device }[] {
  return devices.flatMap(({ name, device }) =>
    Array.from({ length: parts }, (_, i) => {
      if (parts === 1) return { part: name, device }
      const part = `${name}-${i + 1}`
      return { part, device: specimen(device, { spread, seed, name: part }) }
    }),
  )
}

/** Plays a run sheet with every part, all on one and the same tester. */
export function rehearseLot(input: RehearseInput): PlayedLot {
  const { sheet, ambientC, seed } = input
  const played = partsOf(input).map((part) => rehearse(sheet, part, { ambientC, seed }))
  const readings = played.flatMap((p) => p.readings)
  const truths = played.flatMap((p) => p.truths)
  return {
    sheet,
    seed,
    ambientC,
    readings,
    truths: held(input.sheet, readings, truths),
    leftOut: played.flatMap((p) => p.leftOut),
  }
}

function held(sheet: RunSheet, readings: readonly Reading[], truths: readonly Truth[]): readonly TruthHeld[] {
  const { partType } = sheet
  const types = partType === undefined ? {} : { types: () => partType }
  const results = reduceReadings(sheet.tester, readings, { ...types, at25: false })
  const parameters = results.flatMap((r) => r.parameters)
  return truths.map((t) => {
    const found = parameters.find((p) => p.part === t.part && p.symbol === t.symbol && p.points[0] === t.point)
    if (found === undefined) return t
    const { interval } = bestInterval(found.quantity, allFormulas)
    return { ...t, read: { value: found.quantity.value, interval95: interval } }
  })
}

/** What was played, for scripts. */
export interface RehearsalDocument {
  readonly format: 'germane/rehearsal/1'
  /** Id of the tester, and the type where one was named. */
  readonly tester: string
  readonly type?: string
  readonly seed: number
  readonly ambient: number
  readonly readings: readonly Reading[]
  readonly truths: readonly TruthHeld[]
  readonly leftOut: readonly LeftOut[]
}

export const rehearsalDocument = ({
  sheet,
  seed,
  ambientC,
  readings,
  truths,
  leftOut,
}: PlayedLot): RehearsalDocument => ({
  format: 'germane/rehearsal/1',
  tester: sheet.tester.id,
  ...(sheet.partType === undefined ? {} : { type: sheet.partType.type }),
  seed,
  ambient: ambientC,
  readings,
  truths,
  leftOut,
})
