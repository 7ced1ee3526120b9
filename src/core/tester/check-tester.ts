import type { Fault } from '#core/fault'
import { printPlain } from '#core/quantity'
import { documentFault, nearNames, type Path, type TextDocument } from '#core/text'
import { calibrationFaults } from './check-calibration.ts'
import { rangeUnit, unitOf } from './find-range.ts'
import { atTerminals, componentFor } from './network.ts'
import type { Range, Tester, TestOffer } from './tester.ts'

export type Say = (path: Path, problem: string, mend: string) => Fault

/** What is wrong with a description whose form is sound: names that refer to nothing, numbers that contradict. */
export function testerFaults(t: Tester, document: TextDocument): readonly Fault[] {
  const say: Say = (path, problem, mend) => documentFault(document, path, problem, mend)
  return [
    ...nameFaults(t, say),
    ...kindFaults(t, say),
    ...t.ranges.flatMap((r, i) => rangeFaults(t, r, i, say)),
    ...supplyFaults(t, say),
    ...gainFaults(t, say),
    ...testFaults(t, say),
    ...calibrationFaults(t, say),
  ]
}

const plain = (text: string): string => text.toLowerCase().replaceAll(/\s+/g, '')

/** Names given twice in one list; case and blanks do not count, as they do not when a person types a name. */
function repeats(list: readonly { readonly id: string }[], path: Path, say: Say): readonly Fault[] {
  const seen = new Set<string>()
  return list.flatMap(({ id }, i) => {
    if (seen.has(plain(id))) return [say([...path, i, 'id'], 'is the name of two of them', 'Give each its own name.')]
    seen.add(plain(id))
    return []
  })
}

const nameFaults = (t: Tester, say: Say): readonly Fault[] => [
  ...repeats(t.scales, ['scales'], say),
  ...repeats(t.ranges, ['ranges'], say),
  ...repeats(t.supplies, ['supplies'], say),
  ...(t.gain.kind === 'dial' ? repeats(t.gain.spans, ['gain', 'spans'], say) : []),
]

function kindFaults(t: Tester, say: Say): readonly Fault[] {
  if (t.kind !== 'needle')
    return [
      ...(t.movement === undefined ? [] : [say(['movement'], `has no place on a ${t.kind} tester`, 'Take it out.')]),
      ...(t.scales.length === 0 ? [] : [say(['scales'], `have no place on a ${t.kind} tester`, 'Take them out.')]),
    ]
  return [
    ...(t.movement === undefined
      ? [say(['kind'], 'needs a movement', 'Add movement: { fullScale: 100 uA, coil: 1.1 kohm, class: 2 % }.')]
      : []),
    ...(t.scales.length === 0
      ? [say(['kind'], 'needs at least one printed scale', 'Add scales: [{ id: "50", divisions: 50, end: 100 }].')]
      : []),
  ]
}

/** A name that must be in a list of names. */
function mustKnow(name: string, names: readonly string[], what: string, path: Path, say: Say): readonly Fault[] {
  if (names.includes(name)) return []
  const near = nearNames(name, names, 1)
  const all = names.length === 0 ? `There is no ${what} in this file.` : `Those in this file: ${names.join(', ')}.`
  return [say(path, `is not the name of a ${what}`, near.length > 0 ? `Did you mean ${near[0]}? ${all}` : all)]
}

const needsMovement = ['movement', 'shunt', 'universal', 'multiplier']

function rangeFaults(t: Tester, r: Range, i: number, say: Say): readonly Fault[] {
  const path: Path = ['ranges', i]
  const { circuit } = r
  const scale =
    r.scale === undefined
      ? []
      : mustKnow(
          r.scale,
          t.scales.map((s) => s.id),
          'scale',
          [...path, 'scale'],
          say,
        )
  if (needsMovement.includes(circuit.kind) && t.kind !== 'needle')
    return [
      ...scale,
      say([...path, 'circuit'], `needs a movement, which a ${t.kind} tester has not`, 'Use stated or unknown.'),
    ]
  const wanted =
    circuit.kind === 'multiplier' ? 'V' : circuit.kind === 'stated' || circuit.kind === 'unknown' ? undefined : 'A'
  if (wanted !== undefined && wanted !== rangeUnit(r)) {
    const reads = wanted === 'A' ? 'a current' : 'a voltage'
    return [
      ...scale,
      say([...path, 'fullScale'], `does not fit a circuit that reads ${reads}`, `Write ${reads}, or another circuit.`),
    ]
  }
  return [...scale, ...stepFaults(r, path, say), ...networkFaults(t, r, path, say)]
}

function stepFaults(r: Range, path: Path, say: Say): readonly Fault[] {
  if (r.circuit.kind !== 'stated' && r.circuit.kind !== 'unknown') return []
  if (r.circuit.step < r.fullScale) return []
  return [say([...path, 'circuit', 'step'], 'is not smaller than the full scale', 'Write the value of the last digit.')]
}

/** How many times its tolerance and class a range may stray before its description is taken for a slip. */
const slack = 5

/** A network that does not make the printed full scale: what it makes, and what the component should be. */
function networkFaults(t: Tester, r: Range, path: Path, say: Say): readonly Fault[] {
  const m = t.movement
  const { circuit } = r
  if (m === undefined || circuit.kind === 'stated' || circuit.kind === 'unknown') return []
  const unit = rangeUnit(r)
  const full = printPlain(r.fullScale, unit)
  const classPart = m.classPercent / 100
  const tolerance = circuit.kind === 'movement' ? 0 : circuit.tolerance
  const nominal = 'asFound' in circuit ? { ...circuit, asFound: undefined } : circuit
  const made = atTerminals(nominal as Range['circuit'], m.fullScaleA, m.coilOhm)!
  if (circuit.kind === 'universal' && circuit.tapOhm > circuit.ringOhm)
    return [
      say([...path, 'circuit', 'tap'], 'is more than the whole ring', 'Write the part between common and the tap.'),
    ]
  if (Math.abs(made / r.fullScale - 1) <= slack * (tolerance + classPart)) return []
  const makes = `makes ${printPlain(made, unit, { digits: 3 })} at full scale, not ${full}`
  const should = componentFor(r, m)
  if (should === undefined)
    return [say([...path, 'circuit'], makes, `Straight on the movement the range is ${printPlain(made, unit)}.`)]
  if (!(should.ohm > 0)) {
    const mend = `A movement of ${printPlain(m.fullScaleA, 'A')} and ${printPlain(m.coilOhm, 'ohm')} cannot make it.`
    return [say([...path, 'fullScale'], 'cannot be made by this circuit', mend)]
  }
  const mend = `For ${full} the ${should.name === 'series' ? 'series resistor' : should.name} should be about ${printPlain(should.ohm, 'ohm', { digits: 3 })}.`
  return [say([...path, 'circuit', should.name], makes, mend)]
}

function supplyFaults(t: Tester, say: Say): readonly Fault[] {
  return t.supplies.flatMap((s, i): readonly Fault[] => {
    const path: Path = ['supplies', i]
    const top = t.limits.maxVoltageV
    const most = printPlain(top, 'V')
    const aboveLimit = `is above the limit of the tester (${most})`
    if (s.kind === 'external') {
      if ((s.min ?? 0) >= (s.max ?? 0))
        return [say([...path, 'to'], 'is not above the lowest voltage', 'Write the highest voltage it gives.')]
      return (s.max ?? 0) > top ? [say([...path, 'to'], aboveLimit, 'Lower it, or raise limits.voltage.')] : []
    }
    return s.taps.flatMap((tap, n): readonly Fault[] => {
      const cells = tap / s.cellV
      if (tap > top) return [say([...path, 'taps', n], aboveLimit, 'Take it out, or raise limits.voltage.')]
      if (Math.abs(cells - Math.round(cells)) < 0.05 && Math.round(cells) > 0) return []
      const mend = `Cells of ${printPlain(s.cellV, 'V')} make ${printPlain(Math.max(1, Math.round(cells)) * s.cellV, 'V')} near it.`
      return [say([...path, 'taps', n], 'is not a whole number of cells', mend)]
    })
  })
}

function gainFaults(t: Tester, say: Say): readonly Fault[] {
  const { gain } = t
  if (gain.kind !== 'dial' && gain.kind !== 'ratio') return []
  const [low, high] = gain.collectorA
  const order =
    low < high
      ? []
      : [say(['gain', 'collector', 1], 'is not above the smallest current', 'Write smallest, then largest.')]
  const spans = gain.kind === 'ratio' ? [] : gain.spans
  return [
    ...order,
    ...spans.flatMap((s, i) =>
      s.from < s.to
        ? []
        : [say(['gain', 'spans', i, 'to'], 'is not above the low end', 'Write the high end of the span.')],
    ),
  ]
}

function testFaults(t: Tester, say: Say): readonly Fault[] {
  const supplies = t.supplies.map((s) => s.id)
  return t.tests.flatMap((test, i): readonly Fault[] => {
    const path: Path = ['tests', i]
    const supply = test.supply === undefined ? [] : mustKnow(test.supply, supplies, 'supply', [...path, 'supply'], say)
    const noGain = test.reads === 'h_FE' && (t.gain.kind === 'none' || t.gain.kind === 'ratio')
    const mend = 'Take it out, or describe the readout under gain.'
    const gain = noGain ? [say([...path, 'reads'], `needs a gain readout, and gain is ${t.gain.kind}`, mend)] : []
    return [...supply, ...testRangeFaults(t, test, [...path, 'ranges'], say), ...gain]
  })
}

/** Ranges of a test that are not there, or that read another unit than the test. */
function testRangeFaults(t: Tester, test: TestOffer, path: Path, say: Say): readonly Fault[] {
  const ids = t.ranges.map((r) => r.id)
  const unit = unitOf(test.reads)
  const isMeasured = unit === 'A' || unit === 'V'
  if (isMeasured && test.ranges.length === 0)
    return [say(path, `is empty, and ${test.reads} is read on a range`, `Write one or more of: ${ids.join(', ')}.`)]
  return test.ranges.flatMap((id, n): readonly Fault[] => {
    const range = t.ranges.find((r) => r.id === id)
    if (range === undefined) return mustKnow(id, ids, 'range', [...path, n], say)
    if (!isMeasured || rangeUnit(range) === unit) return []
    return [say([...path, n], `reads ${rangeUnit(range)}, and ${test.reads} is in ${unit}`, 'Name a range that fits.')]
  })
}
