import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { type PositionRead, type StageAnswer, stageAnswer, templates } from '#core/stage'
import { asNetlist, asTemplate, readData } from './as-netlist.ts'

/** A stage of its own for each number: one of all templates, its values, its parts and what is asked of it. */
function drawn(k: number) {
  const random = new Random(31, `stage ${k}`)
  const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
  const t = templates[k % templates.length]!
  const polarity = random.uniform() < 0.5 ? 'NPN' : 'PNP'
  const resistors = [...t.resistors, ...t.thermistors]
  const ohm = Object.fromEntries(
    resistors
      .filter((r) => r.absent !== 'nothing' || random.uniform() < 0.7)
      .map((r) => [r.ref, r.ohm * between(0.8, 1.25)]),
  )
  const places = t.places.filter((p) => p.kind === 'Q' || t.main === p.ref)
  const place = places[Math.floor(random.uniform() * places.length)]!.ref
  const material = random.uniform() < 0.7 ? 'Ge' : 'Si'
  const parts = Object.fromEntries(
    t.places.map((p) => [
      p.ref,
      p.kind === 'D'
        ? { material: 'Ge', forward: between(0.2, 0.3), leakage: between(1e-6, 1e-5) }
        : {
            material,
            gain: `${between(40, 120)} +- 10`,
            leakage: material === 'Ge' ? between(5e-7, 5e-6) : 1e-9,
            thermalResistance: between(50, 300),
            caseResistance: 20,
            junctionMax: 90,
          },
    ]),
  )
  const asked = {
    supply: `${t.supplyV * between(0.9, 1.1)} V +- ${0.05 * t.supplyV} V`,
    supplyResistance: random.uniform() < 0.3 && t.sources.some((s) => s.isDriven !== true) ? between(1, 20) : 0,
    tolerance: 0.1,
    parts,
    place,
    swing: 0.3,
    ...(random.uniform() < 0.3 ? { heatSink: between(10, 50) } : {}),
    ...(random.uniform() < 0.5 ? { want: { ic: '1 mA +- 0.5 mA' } } : {}),
  }
  return { t, polarity, ohm, asked } as const
}

const partsOf = ({ wanted }: PositionRead) =>
  Object.fromEntries(Object.entries(wanted).map(([ref, w]) => [ref, 'numbers' in w ? w.numbers : typeless()]))

function typeless(): never {
  throw new Error('a type')
}

/** A room by its nodes, whichever of them is named first. */
const named = (limit: string): string => limit.replace(/(\w+)-(\w+)/, (_, a, b) => [a, b].sort().join('-'))

/** What is answered, the template and what the textbook says of it left out. */
const answered = ({ position: _, stability, limits, verdict, cases, ...answer }: StageAnswer) => ({
  ...answer,
  verdict: { ...verdict, limit: named(verdict.limit) },
  limits: limits.map((l) => ({ ...l, limit: named(l.limit) })),
  cases: cases.map((c) => ({ ...c, verdict: { ...c.verdict, limit: named(c.verdict.limit) } })),
  stability: stability.map(({ symbol, solved }) => ({ symbol, solved })),
})

describe('a template, and the same circuit as a netlist, answer alike', () => {
  test.each(Array.from({ length: 66 }, (_, k) => k))('stage %i', (k) => {
    const { t, polarity, ohm, asked } = drawn(k)
    const one = readData(asTemplate(t, polarity, ohm, asked))
    const other = readData(asNetlist(one.position, partsOf(one), asked))
    expect(other.wanted).toEqual(one.wanted)
    const [a, b] = [one, other].map((read) => stageAnswer(read.position, partsOf(read), { count: 10 }))
    expect(answered(b!)).toEqual(answered(a!))
  })
})
