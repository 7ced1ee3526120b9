import {
  demandDefaults,
  exactly,
  type PartNumbers,
  type Parts,
  type Position,
  polarityAt,
  type TransistorNumbers,
  templateNamed,
} from '#core/stage'

/** An invented transistor of a few numbers. */
export const transistor = (more: Partial<TransistorNumbers> = {}): TransistorNumbers => ({
  kind: 'bipolar',
  name: 'invented',
  polarity: 'PNP',
  material: 'Ge',
  gain: exactly(80),
  atA: 1e-3,
  atV: 5,
  leakageA: exactly(3e-6),
  leakageAtV: 5,
  surface: 0,
  vbeV: exactly(0.15),
  ratings: {},
  notes: [],
  ...more,
})

export const diode: PartNumbers = {
  kind: 'diode',
  name: 'invented diode',
  material: 'Ge',
  forwardV: exactly(0.25),
  atA: 1e-3,
  leakageA: exactly(1e-5),
  leakageAtV: 5,
  ratings: {},
  notes: [],
}

/** The values of a template's example. */
export const exampleOhm = (id: string): Record<string, number> => {
  const t = templateNamed(id)
  return Object.fromEntries([...t.resistors, ...t.thermistors].map((r) => [r.ref, r.ohm]))
}

/** A position with the template's example values, PNP unless said. */
export function positionOf(id: string, more: Partial<Position> = {}): Position {
  const template = templateNamed(id)
  const { fromC, toC, sag, ageing, drift } = demandDefaults
  return {
    title: template.title,
    template,
    polarity: 'PNP',
    supplyV: template.supplyV,
    supplyTolerance: 0,
    supplyOhm: 0,
    ohm: exampleOhm(id),
    tolerance: {},
    betaK: {},
    place: template.main,
    demands: { fromC, toC, sag, ageing, drift, swingV: 0.5 },
    ...more,
  }
}

/** Invented parts for every place; `main` in the one that is looked at. */
export const partsFor = (p: Position, main: PartNumbers = transistor({ polarity: p.polarity })): Parts =>
  Object.fromEntries(
    p.template.places.map((place) => [
      place.ref,
      place.ref === p.place ? main : place.kind === 'D' ? diode : transistor({ polarity: polarityAt(p, place) }),
    ]),
  )
