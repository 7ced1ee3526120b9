import { z } from 'zod'
import type { PartType } from '#core/device'
import type { Place } from '#core/fault'
import type { Verdict } from '#core/judge'
import type { Parameter, PartResult } from '#core/reduce'
import type { Gap, RunSheet, Wishes } from '#core/sheet'
import type { Reading, Tester } from '#core/tester'

/**
 * Shapes of what core makes. Core's own types are the truth: these hold the keys that page and server rely on and let
 * the rest through, so that one declaration of a noun is enough.
 */
export const core = <T>(keys: z.ZodRawShape, id: string, description: string): z.ZodType<T> =>
  z.looseObject(keys).meta({ id, description }) as unknown as z.ZodType<T>

const anyRecord = z.record(z.string(), z.unknown())
const conditions = z.record(z.string(), z.number())

export const testerShape = core<Tester>(
  {
    format: z.literal('germane/tester/1'),
    id: z.string(),
    name: z.string(),
    kind: z.enum(['needle', 'digital', 'display']),
    scales: z.array(anyRecord),
    ranges: z.array(anyRecord),
    supplies: z.array(anyRecord),
    gain: anyRecord,
    tests: z.array(anyRecord),
    limits: anyRecord,
  },
  'Tester',
  'A tester in SI units.',
)

export const partTypeShape = core<PartType>(
  {
    type: z.string(),
    family: z.string(),
    polarity: z.string().optional(),
    material: z.string().optional(),
    outline: z.string().optional(),
    ratings: anyRecord,
    limits: z.array(z.looseObject({ symbol: z.string(), unit: z.string(), at: conditions })),
    provenance: z.looseObject({ kind: z.enum(['read', 'memory', 'own']), where: z.array(z.string()) }),
  },
  'PartType',
  'A published record: ratings and limits at their conditions, SI units, with its source.',
)

export const gapShape = core<Gap>(
  { symbol: z.string(), why: z.string(), mend: z.string().optional() },
  'Gap',
  'Something that cannot be measured on a tester, and why.',
)

export const runSheetShape = core<RunSheet>(
  {
    format: z.literal('germane/sheet/1'),
    tester: testerShape,
    wishes: anyRecord,
    title: z.string(),
    steps: z.array(z.looseObject({ id: z.string(), kind: z.string() })),
    gaps: z.array(gapShape),
    cautions: z.array(anyRecord),
  },
  'RunSheet',
  'Ordered, self-contained steps: set, wait, read, decide.',
)

export const wishesShape = z
  .strictObject({
    ambientC: z.number().optional(),
    ambientU: z.number().optional(),
    collectorA: z.number().optional(),
    supplyV: z.number().optional(),
    forwardA: z.number().optional(),
    polarity: z.enum(['NPN', 'PNP']).optional(),
    material: z.enum(['Ge', 'Si']).optional(),
    family: z.enum(['bjt', 'diode']).optional(),
  })
  .meta({
    id: 'Wishes',
    description: 'What is asked of a plan; SI units, temperatures in degC.',
  }) as unknown as z.ZodType<Partial<Wishes>>

export const readingShape = core<Reading>(
  { part: z.string(), reads: z.string(), shown: anyRecord, seen: z.string(), point: z.number() },
  'Reading',
  'A reading as the person saw it.',
)

export const parameterShape = core<Parameter>(
  {
    part: z.string(),
    symbol: z.string(),
    quantity: z.looseObject({ value: z.number(), unit: z.string(), budget: z.array(anyRecord), origin: anyRecord }),
    conditions,
    temperatureC: z.number(),
    temperatureU: z.number(),
    points: z.array(z.number()),
    standing: z.enum(['measured', 'brought to 25 C']),
    doubts: z.array(anyRecord),
  },
  'Parameter',
  'A parameter with its budget and the whole derivation it came from.',
)

export const partResultShape = core<PartResult>(
  {
    part: z.string(),
    state: z.enum(['measured', 'short', 'open']),
    parameters: z.array(parameterShape),
    doubts: z.array(anyRecord),
  },
  'PartResult',
  'What became of one part in one run.',
)

export const verdictWordShape = z.enum(['conforms', 'does not conform', 'undecided', 'not comparable'])

export const verdictShape = core<Verdict>(
  {
    part: z.string(),
    symbol: z.string(),
    limit: anyRecord,
    conditions,
    verdict: verdictWordShape,
    probability: z.number().optional(),
    why: z.string(),
    rule: anyRecord,
    source: z.string(),
  },
  'Verdict',
  'A parameter held against one published limit.',
)

export const placeShape = core<Place>(
  {
    file: z.string().optional(),
    line: z.number().optional(),
    column: z.number().optional(),
    row: z.number().optional(),
    field: z.string().optional(),
  },
  'Place',
  'Where something was found; counted from 1.',
)
