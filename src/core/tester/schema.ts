import { z } from 'zod'
import { calibrations } from './schema-calibration.ts'
import { bridge, diodes, fuse } from './schema-insides.ts'
import { readingKinds } from './tester.ts'
import {
  classIndex,
  currentOrVoltage,
  fraction,
  given,
  label,
  measuredOhm,
  ratio,
  temperatureStep,
  valueIn,
} from './values.ts'

/** What is taken where a description leaves a key out. */
export const testerDefaults = {
  /** Relative change of the coil's resistance per kelvin: annealed copper near 20 degC (IEC 60028). */
  copperPerK: 0.00393,
  /** Temperature at which the coil's resistance is stated, degC. */
  coilAtC: 20,
  /** Fraction of a division that is read between the marks: one fifth for a pocket or panel meter (common practice). */
  readable: 0.2,
  zero: 'left',
  contactOhm: 0,
} as const

const ohm = (description: string, example: string) => valueIn('ohm', { description, example, above: 0, upTo: 1e12 })
const ampere = (description: string, example: string) => valueIn('A', { description, example, above: 0, upTo: 1000 })
const volt = (description: string, example: string) => valueIn('V', { description, example, above: 0, upTo: 10_000 })
const part = (description: string, example: string, upTo = 1) => fraction({ description, example, from: 0, upTo })

const toleranceOf = (what: string) => part(`Limit of error of the ${what}.`, '1 %', 0.5)

const movement = z
  .strictObject({
    fullScale: ampere('Current through the movement at full deflection.', '100 uA'),
    coil: ohm('Resistance of the coil, with whatever always stands in series with it.', '1.1 kohm'),
    coilTolerance: part(
      'Limit of error of the coil resistance, where shunts were not adjusted to it.',
      '2 %',
      0.5,
    ).optional(),
    class: classIndex({
      description: 'Accuracy class: limit of error in percent of full scale (IEC 60051).',
      example: '2 %',
      above: 0,
      upTo: 20,
    }),
    at: valueIn('degC', {
      description: 'Temperature at which the coil resistance holds.',
      example: '20 degC',
      from: -20,
      upTo: 60,
    }).optional(),
    copper: valueIn('1/K', {
      description: 'Change of the coil resistance per kelvin; 0 %/K where it is compensated.',
      example: '0.39 %/K',
      from: -0.01,
      upTo: 0.01,
    }).optional(),
    zero: z
      .enum(['left', 'centre'])
      .optional()
      .meta({ description: 'Where the needle rests.', examples: ['left'] }),
    readable: ratio({
      description: 'How finely you read it: part of a division.',
      example: '1/5',
      above: 0,
      upTo: 2,
    }).optional(),
    diodes,
  })
  .transform((m) => ({
    fullScaleA: m.fullScale,
    coilOhm: m.coil,
    ...given({ coilTolerance: m.coilTolerance }),
    copperPerK: m.copper ?? testerDefaults.copperPerK,
    atC: m.at ?? testerDefaults.coilAtC,
    classPercent: m.class,
    zero: m.zero ?? testerDefaults.zero,
    readable: m.readable ?? testerDefaults.readable,
    ...given({ diodes: m.diodes }),
  }))
  .meta({ description: 'The needle instrument.', examples: ['{ fullScale: 100 uA, coil: 1.1 kohm, class: 2 % }'] })

const scale = z.strictObject({
  id: label('Name of the scale, as printed.', '50'),
  divisions: z
    .number()
    .positive()
    .max(1000)
    .meta({ description: 'Number of smallest divisions from zero to full scale.', examples: [50] }),
  end: z
    .number()
    .positive()
    .max(1e9)
    .meta({ description: 'Number printed at full scale.', examples: [100] }),
})

const asFound = measuredOhm({
  description: 'Its measured value with the standard uncertainty of that; takes the place of value and tolerance.',
  example: '11.15 ohm +- 0.02 ohm',
  above: 0,
  upTo: 1e12,
}).optional()

const shunt = z
  .strictObject({
    kind: z.literal('shunt'),
    shunt: ohm('Resistance of the shunt across the movement.', '11.1 ohm'),
    tolerance: toleranceOf('shunt'),
    contact: valueIn('ohm', {
      description: 'Resistance of switch contact and wire in series with the shunt.',
      example: '5 milliohm',
      from: 0,
      upTo: 1000,
    }).optional(),
    asFound,
  })
  .transform((c) => ({
    kind: c.kind,
    shuntOhm: c.shunt,
    tolerance: c.tolerance,
    contactOhm: c.contact ?? testerDefaults.contactOhm,
    ...given({ asFound: c.asFound }),
  }))

const universal = z
  .strictObject({
    kind: z.literal('universal'),
    ring: ohm('The whole universal shunt, end to end, across the movement.', '2.5 kohm'),
    tap: ohm('The part of it between common and the tap of this range.', '116.7 ohm'),
    tolerance: toleranceOf('ring and its taps'),
  })
  .transform((c) => ({ kind: c.kind, ringOhm: c.ring, tapOhm: c.tap, tolerance: c.tolerance }))

const multiplier = z
  .strictObject({
    kind: z.literal('multiplier'),
    series: ohm('Resistance in series with the movement.', '98.9 kohm'),
    tolerance: toleranceOf('multiplier'),
    asFound,
  })
  .transform((c) => ({ kind: c.kind, seriesOhm: c.series, tolerance: c.tolerance, ...given({ asFound: c.asFound }) }))

const step = currentOrVoltage({
  description: 'Value of the last digit, or of the smallest step shown.',
  example: '0.1 uA',
  above: 0,
})

const stated = z
  .strictObject({
    kind: z.literal('stated'),
    ofReading: part("Maker's limit of error: part of the reading.", '0.5 %').optional(),
    ofRange: part("Maker's limit of error: part of the range.", '0.1 %').optional(),
    counts: z
      .number()
      .min(0)
      .max(10_000)
      .optional()
      .meta({ description: "Maker's limit of error: counts of the last digit.", examples: [2] }),
    step,
    burden: volt('Voltage lost at full scale on a current range.', '200 mV').optional(),
    input: ohm('Input resistance of a voltage range.', '10 Mohm').optional(),
  })
  .transform((c) => ({
    kind: c.kind,
    ofReading: c.ofReading ?? 0,
    ofRange: c.ofRange ?? 0,
    counts: c.counts ?? 0,
    step: c.step.value,
    ...given({ burdenV: c.burden, inputOhm: c.input }),
  }))

const unknown = z
  .strictObject({
    kind: z.literal('unknown'),
    assumed: part('Limit of error taken for granted, as a part of the reading.', '10 %'),
    step,
  })
  .transform((c) => ({ kind: c.kind, assumed: c.assumed, step: c.step.value }))

const direct = z.literal('movement').transform(() => ({ kind: 'movement' as const }))
const directGroup = z.strictObject({ kind: z.literal('movement') })

const circuit = z
  .union([direct, z.discriminatedUnion('kind', [directGroup, shunt, universal, multiplier, stated, unknown])])
  .meta({
    description: 'How the range reaches the movement, or how accurate it is said to be.',
    examples: ['{ kind: shunt, shunt: 11.1 ohm, tolerance: 1 % }'],
  })

const range = z
  .strictObject({
    id: label('Name of the range, as printed at the switch.', '10 mA'),
    fullScale: currentOrVoltage({ description: 'Full-scale value.', example: '10 mA', above: 0, upTo: 10_000 }),
    scale: label('Printed scale it is read on; the first one where left out.', '50').optional(),
    circuit,
  })
  .transform((r) => ({
    id: r.id,
    measures: r.fullScale.unit === 'A' ? ('current' as const) : ('voltage' as const),
    fullScale: r.fullScale.value,
    ...given({ scale: r.scale }),
    circuit: r.circuit,
  }))

const supplyId = label('Name of the supply.', 'collector')
const sourceTolerance = part('Standard uncertainty of the voltage, as a part of it.', '3 %', 0.5)
const maxCurrent = ampere('Largest current it can give.', '500 mA').optional()

const cells = z
  .strictObject({
    id: supplyId,
    kind: z.literal('cells'),
    taps: z
      .array(volt('Voltage of a tap.', '4.5 V'))
      .min(1)
      .max(40)
      .meta({ description: 'Voltages that can be set.', examples: [['1.5 V', '4.5 V']] }),
    cell: volt('Voltage of one cell.', '1.5 V'),
    perCell: valueIn('ohm', { description: 'Source resistance of one cell.', example: '0.5 ohm', from: 0, upTo: 1e6 }),
    tolerance: sourceTolerance,
    maxCurrent,
  })
  .transform((s) => ({
    id: s.id,
    kind: s.kind,
    taps: s.taps,
    cellV: s.cell,
    ohmPerCell: s.perCell,
    tolerance: s.tolerance,
    ...given({ maxA: s.maxCurrent }),
  }))

const external = z
  .strictObject({
    id: supplyId,
    kind: z.literal('external'),
    from: valueIn('V', { description: 'Lowest voltage.', example: '0 V', from: 0, upTo: 10_000 }),
    to: volt('Highest voltage.', '60 V'),
    resistance: valueIn('ohm', { description: 'Source resistance.', example: '10 ohm', from: 0, upTo: 1e9 }),
    tolerance: sourceTolerance,
    maxCurrent,
  })
  .transform((s) => ({
    id: s.id,
    kind: s.kind,
    taps: [] as readonly number[],
    min: s.from,
    max: s.to,
    cellV: 0,
    ohmPerCell: s.resistance,
    tolerance: s.tolerance,
    ...given({ maxA: s.maxCurrent }),
  }))

const collector = z
  .tuple([ampere('Smallest current.', '0.5 mA'), ampere('Largest current.', '50 mA')])
  .meta({ description: 'Collector currents it can set, smallest and largest.', examples: [['0.5 mA', '50 mA']] })

const gainNumber = (description: string, example: number) =>
  z
    .number()
    .min(0)
    .max(1e6)
    .meta({ description, examples: [example] })

const dial = z
  .strictObject({
    kind: z.literal('dial'),
    spans: z
      .array(
        z.strictObject({
          id: label('Name of the span, as printed.', 'x1'),
          from: gainNumber('Gain at its low end.', 10),
          to: gainNumber('Gain at its high end.', 100),
        }),
      )
      .min(1)
      .max(20),
    tolerance: part('Limit of error of the dial, as a part of the reading.', '5 %'),
    readable: part("Smallest step you can read off it, as a part of the span's top value.", '1 %'),
    nullWithin: part('How sharply it nulls: half-width as a part of the reading.', '1 %'),
    collector,
    bridge: bridge.optional(),
  })
  .transform((g) => ({
    kind: g.kind,
    spans: g.spans,
    tolerance: g.tolerance,
    readable: g.readable,
    nullWithin: g.nullWithin,
    collectorA: g.collector as readonly [number, number],
    ...given({ bridge: g.bridge }),
  }))

const byRatio = z
  .strictObject({
    kind: z.literal('ratio'),
    maxBase: ampere('Largest base current it can set.', '5 mA'),
    collector,
  })
  .transform((g) => ({ kind: g.kind, maxBaseA: g.maxBase, collectorA: g.collector as readonly [number, number] }))

const digitalGain = z
  .strictObject({
    kind: z.literal('digital'),
    ofReading: part("Maker's limit of error: part of the reading; left out when nothing is said.", '3 %').optional(),
    counts: gainNumber("Maker's limit of error: counts of the last digit.", 2).optional(),
    step: z
      .number()
      .positive()
      .max(1000)
      .meta({ description: 'Value of the last digit.', examples: [1] }),
    collectorCurrent: ampere('Collector current it works at, where known.', '1 mA').optional(),
    baseCurrent: ampere('Base current it works at, where known.', '10 uA').optional(),
    collectorVoltage: volt('Collector voltage it works at, where known.', '2.8 V').optional(),
  })
  .transform((g) => ({
    kind: g.kind,
    step: g.step,
    ...given({
      ofReading: g.ofReading,
      counts: g.counts,
      collectorA: g.collectorCurrent,
      baseA: g.baseCurrent,
      collectorV: g.collectorVoltage,
    }),
  }))

const none = z.literal('none').transform(() => ({ kind: 'none' as const }))
const noneGroup = z.strictObject({ kind: z.literal('none') })

const gain = z
  .union([none, z.discriminatedUnion('kind', [noneGroup, dial, byRatio, digitalGain])])
  .meta({ description: 'How gain is read; none where it is not.', examples: ['none'] })

const test = z
  .strictObject({
    reads: z.enum(readingKinds).meta({ description: 'What the test reads.', examples: ['I_CEO'] }),
    ranges: z
      .array(label('Name of a range.', '100 uA'))
      .max(60)
      .meta({ description: 'Ranges that can be switched in.', examples: [['100 uA', '1 mA']] }),
    supply: label('Supply it runs from.', 'collector').optional(),
    series: valueIn('ohm', {
      description: 'Resistance in series with the part.',
      example: '100 ohm',
      from: 0,
      upTo: 1e9,
    }).optional(),
  })
  .transform((t) => ({ reads: t.reads, ranges: t.ranges, ...given({ supply: t.supply, seriesOhm: t.series }) }))

const longText = z.string().max(2000)

/** The description file: what people write, and what comes out in SI units. */
export const testerFile = z
  .strictObject({
    format: z.literal('germane/tester/1').meta({ description: 'Form of this file.' }),
    id: z
      .string()
      .max(40)
      .regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/)
      .meta({
        description: 'Short name for files and commands: lower case, digits, hyphens.',
        examples: ['bench-tester'],
      }),
    name: z
      .string()
      .min(1)
      .max(80)
      .meta({ description: 'Name in full.', examples: ['Bench tester'] }),
    kind: z.enum(['needle', 'digital', 'display']).meta({ description: 'What is read: a needle, or digits.' }),
    note: longText.optional().meta({ description: 'Anything worth knowing about it.' }),
    polarities: z
      .array(z.enum(['NPN', 'PNP']))
      .max(2)
      .meta({ description: 'Transistor polarities it takes.', examples: [['NPN', 'PNP']] }),
    movement: movement.optional(),
    scales: z.array(scale).max(20).optional().meta({ description: 'Printed scales; the first is the usual one.' }),
    ranges: z.array(range).max(100).meta({ description: 'Measuring ranges.' }),
    supplies: z
      .array(z.discriminatedUnion('kind', [cells, external]))
      .max(20)
      .optional()
      .meta({ description: 'Cells with their taps, and inputs for other supplies.' }),
    gain,
    tests: z.array(test).min(1).max(60).meta({ description: 'The tests its switches offer.' }),
    limits: z
      .strictObject({
        current: ampere('Most current it may carry.', '3 A'),
        voltage: volt('Most voltage it may have put on it.', '60 V'),
      })
      .transform((l) => ({ maxCurrentA: l.current, maxVoltageV: l.voltage }))
      .meta({ description: 'What the tester itself bears.', examples: ['{ current: 3 A, voltage: 60 V }'] }),
    shortLooksLike: longText.optional().meta({ description: 'What a shorted part looks like on it.' }),
    thermometer: temperatureStep({
      description: 'Standard uncertainty of the ambient temperature you note.',
      example: '1 K',
      above: 0,
      upTo: 20,
    }).optional(),
    fuse: fuse.optional(),
    calibrations: calibrations.optional(),
  })
  .transform((t) => ({
    format: t.format,
    id: t.id,
    name: t.name,
    kind: t.kind,
    ...given({ note: t.note }),
    polarities: t.polarities,
    ...given({ movement: t.movement }),
    scales: t.scales ?? [],
    ranges: t.ranges,
    supplies: t.supplies ?? [],
    gain: t.gain,
    tests: t.tests,
    limits: t.limits,
    ...given({
      shortLooksLike: t.shortLooksLike,
      thermometer: t.thermometer === undefined ? undefined : { uC: t.thermometer },
      fuse: t.fuse,
      calibrations: t.calibrations,
    }),
  }))
  .meta({ title: 'Tester', description: 'What a tester is, for Germane.' })
