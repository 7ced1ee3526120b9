import { z } from 'zod'
import {
  partResultShape,
  readingShape,
  runSheetShape,
  verdictShape,
  verdictWordShape,
  wishesShape,
} from './core-shape.ts'
import { route } from './route.ts'

const runParam = z.object({ run: z.coerce.number().int().min(1) })
const readingParam = z.object({ run: z.coerce.number().int().min(1), reading: z.coerce.number().int().min(1) })
export const tagShape = z.string().trim().min(1).max(200)

/** What a run is planned from. `type` is a type number or `unknown`. */
export const planBodyShape = z.strictObject({
  tester: z.string().min(1).max(200),
  type: z.string().min(1).max(200),
  wishes: wishesShape.optional(),
})
export type PlanBody = z.input<typeof planBodyShape>

export const runEntryShape = z
  .object({
    id: z.number(),
    tester: z.string(),
    testerName: z.string(),
    testerVersion: z.number(),
    /** Part type; left out for unmarked parts and mixed lots. */
    type: z.string().optional(),
    title: z.string().optional(),
    note: z.string().optional(),
    state: z.enum(['open', 'finished', 'stopped']),
    startedAt: z.string(),
    finishedAt: z.string().optional(),
    ambientC: z.number().optional(),
    ambientU: z.number().optional(),
    /** Number of parts and of readings so far. */
    parts: z.number(),
    readings: z.number(),
    /** Part that was read last. */
    lastPart: z.string().optional(),
  })
  .meta({ id: 'RunEntry' })
export type RunEntry = z.infer<typeof runEntryShape>

export const keptReadingShape = z
  .object({
    id: z.number(),
    run: z.number(),
    reading: readingShape,
    /** Number of the reading that this one corrects. */
    replaces: z.number().optional(),
    enteredAt: z.string(),
  })
  .meta({ id: 'KeptReading' })
export type KeptReading = z.infer<typeof keptReadingShape>

export const runDetailShape = z
  .object({
    run: runEntryShape,
    sheet: runSheetShape.optional(),
    /** Readings that count: no correction has replaced them. Oldest first. */
    readings: z.array(keptReadingShape),
  })
  .meta({ id: 'RunDetail' })
export type RunDetail = z.infer<typeof runDetailShape>

/**
 * A reading as it was typed. `step` names the step of the run's sheet that asked for it and says what is read and where;
 * fields given beside it go before. `clientId` is made once by who typed: sent again after a lost answer, it does not
 * count twice.
 */
export const newReadingShape = z
  .strictObject({
    clientId: z.string().min(8).max(100),
    part: tagShape,
    type: z.string().max(200).optional(),
    step: z.string().max(200).optional(),
    /** As typed: `7.3 div`, `12.5 uA`, `clear`. */
    seen: z.string().min(1).max(200),
    reads: z.string().max(20).optional(),
    range: z.string().max(200).optional(),
    scale: z.string().max(200).optional(),
    point: z.number().int().min(1).optional(),
    supplyV: z.number().optional(),
    ambientC: z.number().optional(),
    ambientU: z.number().min(0).optional(),
    note: z.string().max(2000).optional(),
    /** When it was seen, ISO; left out: now. */
    at: z.string().max(40).optional(),
  })
  .meta({ id: 'NewReading' })
export type NewReading = z.input<typeof newReadingShape>

export const correctionShape = z
  .strictObject({
    clientId: z.string().min(8).max(100),
    seen: z.string().min(1).max(200),
    range: z.string().max(200).optional(),
    supplyV: z.number().optional(),
    note: z.string().max(2000).optional(),
  })
  .meta({ id: 'Correction' })
export type Correction = z.input<typeof correctionShape>

export const readingTakenShape = z
  .object({
    reading: keptReadingShape,
    /** How it was understood: `7.3 div of 50 on 100 uA = 14.6 uA`. */
    echo: z.string(),
    /** True where the same `clientId` was taken before: nothing was added. */
    isRepeat: z.boolean(),
    /** Number of the edit, where it corrected another reading. */
    edit: z.number().optional(),
  })
  .meta({ id: 'ReadingTaken' })
export type ReadingTaken = z.infer<typeof readingTakenShape>

/** What became of one part in a run. */
export const outcomeShape = z
  .object({
    part: z.string(),
    type: z.string().optional(),
    result: partResultShape,
    verdicts: z.array(verdictShape),
    /** The worst of its verdicts; left out where it could not be judged. */
    word: verdictWordShape.optional(),
  })
  .meta({ id: 'Outcome' })
export type Outcome = z.infer<typeof outcomeShape>

export const outcomesShape = z.object({
  run: runEntryShape,
  outcomes: z.array(outcomeShape),
  notes: z.array(z.string()),
})
export type Outcomes = z.infer<typeof outcomesShape>

export const runRoutes = {
  plan: route({
    method: 'post',
    path: '/api/plan',
    summary: 'A safe run sheet for a part type, or an unmarked part, on a tester.',
    body: planBodyShape,
    answer: runSheetShape,
  }),
  runs: route({
    method: 'get',
    path: '/api/runs',
    summary: 'Runs, newest first.',
    query: z.object({
      state: z.enum(['open', 'finished', 'stopped']).optional(),
      limit: z.coerce.number().int().min(1).max(1000).optional(),
    }),
    answer: z.object({ runs: z.array(runEntryShape) }),
  }),
  startRun: route({
    method: 'post',
    path: '/api/runs',
    summary: 'Plans and begins a run; the sheet is kept with it.',
    body: z.strictObject({ ...planBodyShape.shape, note: z.string().max(2000).optional() }),
    answer: runDetailShape,
  }),
  run: route({
    method: 'get',
    path: '/api/runs/{run}',
    summary: 'A run with its sheet and the readings that count.',
    params: runParam,
    query: z.object({ part: z.string().max(200).optional() }),
    answer: runDetailShape,
  }),
  addReading: route({
    method: 'post',
    path: '/api/runs/{run}/readings',
    summary: 'Takes a reading. When it is answered, the reading is on the disk.',
    params: runParam,
    body: newReadingShape,
    answer: readingTakenShape,
  }),
  correctReading: route({
    method: 'post',
    path: '/api/runs/{run}/readings/{reading}/correction',
    summary: 'Corrects a reading: the new one takes its place, the old one stays in the book.',
    params: readingParam,
    body: correctionShape,
    answer: readingTakenShape,
  }),
  settleRun: route({
    method: 'post',
    path: '/api/runs/{run}/results',
    summary: 'Computes and keeps the results of a run so far, or of one of its parts; the run stays as it is.',
    params: runParam,
    body: z.strictObject({ part: tagShape.optional() }),
    answer: outcomesShape,
  }),
  finishRun: route({
    method: 'post',
    path: '/api/runs/{run}/end',
    summary: 'Ends a run and keeps its results.',
    params: runParam,
    body: z.strictObject({ state: z.enum(['finished', 'stopped']).optional() }),
    answer: outcomesShape,
  }),
}
