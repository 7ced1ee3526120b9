import type { Command } from 'commander'
import { keepTester, onBench, testerFromText, type testerNamed } from '#bench'
import { type Fault, FaultError } from '#core/fault'
import { printPlain, printQuantity } from '#core/quantity'
import { allFormulas } from '#core/reduce'
import { readingKindOf, readShown, seenAtPart, type Tester, testerExample, testerSchema } from '#core/tester'
import { working, workingText } from '#core/uncertainty'
import { writeExample } from './example.ts'
import { readInput } from './input.ts'
import {
  badOption,
  benchOptions,
  bookWords,
  chosenTester,
  optionAmbient,
  withAmbient,
  withBook,
  withJson,
  withVerbs,
} from './options.ts'
import { printJson, printLines } from './output.ts'
import { tableLines, wrapped } from './table.ts'
import { defineCalibrate, defineCertificate } from './tester-calibrate.ts'
import { defineCells } from './tester-cells.ts'
import { defineCheck } from './tester-check.ts'
import { defineCode } from './tester-code.ts'
import { defineCoil } from './tester-coil.ts'
import { defineCompare } from './tester-compare.ts'
import { defineDiagnose } from './tester-diagnose.ts'
import { defineDial } from './tester-dial.ts'
import { defineDrift } from './tester-drift.ts'
import { defineFound } from './tester-found.ts'
import { defineGauge } from './tester-gauge.ts'
import { defineMovement } from './tester-movement.ts'
import { defineOhms } from './tester-ohms.ts'
import { defineProtect } from './tester-protect.ts'
import { defineResistor } from './tester-resistor.ts'
import { defineShunt } from './tester-shunt.ts'
import { defineWire } from './tester-wire.ts'

interface TesterOptions {
  readonly book?: string
  readonly json?: boolean
  readonly range?: string
  readonly ambient?: string
}

const named = 'id of a sample or of one in the book, or a description file'
const described = 'description, YAML or JSON; - reads standard input'

export function define(command: Command): void {
  withVerbs(command, 'print a description that works', (o) => writeExample(testerExample, 'yaml', o))
  const verb = (name: string, description: string): Command =>
    withJson(withBook(command.command(name).description(description)))
  verb('list', 'List the samples and the testers of the book.').action(list)
  verb('show', 'Show a tester: ranges, supplies, gain, tests.').argument('<tester>', named).action(show)
  defineCheck(command, testerLines)
  verb('add', 'Put a description into the book; a change makes a new version.')
    .argument('<file>', described)
    .action(add)
  withAmbient(verb('read', 'Say what a reading means at the part, with its working.'))
    .argument('<tester>', named)
    .argument('<what>', 'what was read, by its symbol: I_CEO, h_FE')
    .argument('<shown>', 'what was shown: "7.3 div", "12.5 uA", 118')
    .option('--range <range>', 'range it was read on')
    .action(read)
  defineFound(command)
  defineDiagnose(command)
  defineCalibrate(command)
  defineCertificate(command)
  defineCompare(command)
  defineGauge(command)
  defineDrift(command)
  withJson(command.command('schema').description('Print the JSON Schema of description files.')).action(() =>
    printJson(testerSchema()),
  )
  defineCode(command)
  defineResistor(command)
  defineShunt(command)
  defineOhms(command)
  defineWire(command)
  defineCoil(command)
  defineProtect(command)
  defineDial(command)
  defineCells(command)
  defineMovement(command)
}

async function list(o: TesterOptions): Promise<void> {
  await onBench(benchOptions(o), ({ testers }) => {
    if (o.json === true)
      return printJson({
        format: 'germane/testers/1',
        testers: testers.map(({ tester, from, version }) => ({
          id: tester.id,
          name: tester.name,
          kind: tester.kind,
          from,
          version,
        })),
      })
    printLines(
      tableLines(
        ['id', 'name', 'kind', 'from'],
        testers.map((t) => [
          t.tester.id,
          t.tester.name,
          t.tester.kind,
          t.version === undefined ? t.from : `${t.from}, version ${t.version}`,
        ]),
      ),
    )
  })
}

async function show(named: string, o: TesterOptions): Promise<void> {
  await onBench(benchOptions(o), (bench) => {
    const { tester, from, version } = chosenTester(bench, named)
    if (o.json === true) printJson({ format: 'germane/tester-record/1', from, version, tester })
    else printLines(testerLines(tester))
  })
}

async function add(path: string, o: TesterOptions): Promise<void> {
  const { text, file } = readInput(path)
  const known = testerFromText(text, file)
  const options = benchOptions(o, true)
  const book = bookWords(options)
  await onBench({ ...options, create: true }, async (bench) => {
    const saved = await keepTester(bench, known)
    if (o.json === true) printJson({ format: 'germane/saved/1', id: known.tester.id, ...saved })
    else
      printLines([
        saved.isNew
          ? `${known.tester.name} is in ${book} as version ${saved.version}.`
          : `${known.tester.name} is in ${book} already, unchanged, as version ${saved.version}.`,
      ])
  })
}

async function read(named: string, what: string, seen: string, o: TesterOptions): Promise<void> {
  await onBench(benchOptions(o), (bench) => {
    const tester = namedOrFile(bench, named)
    const kind = readingKindOf(what)
    if (!kind.ok) throw badOption('what', what, kind.problem, kind.mend)
    const shown = readShown(seen, kind.reads)
    if (!shown.ok) throw badOption('shown', seen, shown.problem, shown.mend)
    const meant = seenAtPart(tester, {
      part: 'reading',
      reads: kind.reads,
      shown: shown.shown,
      seen,
      point: 1,
      ...(o.range === undefined ? {} : { range: o.range }),
      ...optionAmbient(o.ambient),
    })
    if (!meant.ok) throw new FaultError(meant.faults.map(ofRange))
    const w = working(meant.quantity, allFormulas)
    if (o.json === true)
      printJson({ format: 'germane/reading/1', reads: kind.reads, range: meant.range?.id, ...w, notes: meant.notes })
    else printLines([`${kind.reads} = ${printQuantity(meant.quantity)}`, ...workingText(w), ...meant.notes])
  })
}

const namedOrFile = (bench: Parameters<typeof testerNamed>[0], named: string): Tester =>
  chosenTester(bench, named).tester

/** A tester for people. */
export function testerLines(t: Tester): readonly string[] {
  const ranges = t.ranges.map((r) => [
    r.id,
    r.measures,
    printPlain(r.fullScale, r.measures === 'current' ? 'A' : 'V', { digits: 4 }),
    r.scale ?? '',
    r.circuit.kind,
  ])
  const tests = t.tests.map((o) => [o.reads, o.ranges.join(', '), o.supply ?? ''])
  return [
    `${t.name} (${t.id}), ${t.kind}`,
    ...(t.note === undefined ? [] : wrapped(t.note.trim(), '  ')),
    ...(t.movement === undefined
      ? []
      : [
          `  movement ${printPlain(t.movement.fullScaleA, 'A')}, ${printPlain(t.movement.coilOhm, 'ohm')}, class ${t.movement.classPercent} %, zero ${t.movement.zero}`,
        ]),
    '',
    ...tableLines(['range', 'measures', '>full scale', 'scale', 'by'], ranges),
    '',
    ...tableLines(['reads', 'on ranges', 'from'], tests),
    '',
    `Gain: ${t.gain.kind}. At most ${printPlain(t.limits.maxCurrentA, 'A')} and ${printPlain(t.limits.maxVoltageV, 'V')}.`,
  ]
}

/** A fault about the range, said of the option. */
function ofRange(fault: Fault): Fault {
  if (fault.code !== 'bad-input' || fault.place.field !== 'range') return fault
  const problem = fault.problem.replace(/^is empty/, 'is not given')
  return { ...fault, place: { field: '--range' }, problem }
}
