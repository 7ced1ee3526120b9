import { type Command, CommanderError } from 'commander'
import { beforeAll, describe, expect, test } from 'vitest'
import { germane as commandLine, usageFault, verbs } from '#cli'
import { explain } from '#core/fault'
import { fewAtATime, germane, oneDocument, refusal } from './germane.ts'
import { printed } from './here.ts'

const g = germane()

const program = await commandLine(() => true)

/** Every command as it is typed: `tester show`. */
function paths(command: Command, before: readonly string[] = []): readonly (readonly string[])[] {
  return command.commands.flatMap((c) => [[...before, c.name()], ...paths(c, [...before, c.name()])])
}

const all = paths(program)

beforeAll(async () => {
  const made = await g.run(['demo', '--book', 'demo.germane'])
  expect(made.code).toBe(0)
  const { out } = await g.run(['judge', '--example'])
  g.write('readings.csv', out)
  g.write('stage.json', (await g.run(['circuit', '--example'])).out)
  g.write('curve.csv', (await g.run(['fit', '--example'])).out)
  g.write('parts.csv', (await g.run(['match', '--example'])).out)
  g.write('leads.csv', (await g.run(['identify', '--example'])).out)
  g.write('position.yaml', (await g.run(['stage', '--example'])).out)
  g.write('part.mod', (await g.run(['rehearse', '--example'])).out)
  g.write('pairs.csv', (await g.run(['tester', 'compare', '--example'])).out)
  g.write('hands.csv', (await g.run(['tester', 'gauge', '--example'])).out)
  g.write('standard.csv', (await g.run(['tester', 'drift', '--example'])).out)
  g.write('scale.csv', (await g.run(['tester', 'movement', '--example'])).out)
  g.write('found.csv', (await g.run(['tester', 'found', '--example'])).out)
  g.write('dial.csv', (await g.run(['tester', 'dial', '--example'])).out)
  g.write('calibration.csv', (await g.run(['tester', 'calibrate', '--example'])).out)
  g.write('tester.yaml', (await g.run(['tester', '--example'])).out)
  await g.run(['tester', 'calibrate', 'tester.yaml', 'calibration.csv', '--keep', '--book', 'calibrated.germane'])
  g.write('types.yaml', (await g.run(['type', '--example'])).out)
  g.write('job.yaml', (await g.run(['job', '--example'])).out)
  g.write('board.png', Buffer.from('\x89PNG\r\n\x1a\n\0\0\0\rIHDR', 'latin1'))
  g.write('book.json', (await g.run(['book', 'export', '--book', 'demo.germane'])).out)
})

/** A line of arguments that works for each command that does something by itself, and the document it prints. */
const working: readonly (readonly [args: readonly string[], format: string, codes?: readonly number[]])[] = [
  [['plan', '2N1305', '--tester', 'larkfield'], 'germane/sheet/1'],
  [['run', '2N1305', '--tester', 'larkfield', '--book', 'run.germane'], 'germane/run/1'],
  [['reduce', 'readings.csv', '--tester', 'tester.yaml'], 'germane/parameters/1'],
  [['judge', 'readings.csv', '--tester', 'tester.yaml'], 'germane/verdicts/1', [1]],
  [['rehearse', 'part.mod', '--type', '2N1305', '--tester', 'larkfield'], 'germane/rehearsal/1'],
  [['identify', 'leads.csv'], 'germane/identities/1'],
  [['circuit', 'stage.json', '--sensitivity', 'node:c'], 'germane/circuit/1'],
  [['circuit', 'stage.json', '--sweep-temperature', '0:50:25'], 'germane/circuit-sweep/1'],
  [['fit', 'diode', 'curve.csv', '--temperature', '23'], 'germane/fit/1'],
  [['curve', 'curve.csv', '--write', 'curve.png'], 'germane/curves/1'],
  [['curve', 'curve.csv', 'curve.csv', '--compare'], 'germane/curve-comparison/1'],
  [['match', 'parts.csv', '--size', '2', '--by', 'vbe_mV:5'], 'germane/sets/1'],
  [['match', 'parts.csv', '--grades', 'red,green', '--by', 'vbe_mV'], 'germane/grades/1'],
  [['match', '--wants'], 'germane/wants/1'],
  [['stage', 'position.yaml', '--count', '20'], 'germane/stage/1'],
  [['stage', 'position.yaml', '--rank', '--book', 'demo.germane'], 'germane/stage-ranking/1'],
  [['stage', 'position.yaml', '--re-bias', '--type', 'BC557'], 'germane/re-bias/1'],
  [['stage', '--templates'], 'germane/stage-templates/1'],
  [['standin', '2N404', '--voltage', '9 V'], 'germane/stand-ins/1'],
  [['standin', '--position', 'position.yaml', '--from', 'drawer', '--book', 'demo.germane'], 'germane/stand-ins/1'],
  [['tester', 'list'], 'germane/testers/1'],
  [['tester', 'show', 'larkfield'], 'germane/tester-record/1'],
  [['tester', 'check', 'tester.yaml'], 'germane/check/1'],
  [['tester', 'add', 'tester.yaml', '--book', 'added.germane'], 'germane/saved/1'],
  [['tester', 'read', 'larkfield', 'I_CEO', '12 div', '--range', '100 uA'], 'germane/reading/1'],
  [['tester', 'compare', 'pairs.csv', '--within', '10 %'], 'germane/agreement/1'],
  [['tester', 'gauge', 'hands.csv'], 'germane/gauge/1'],
  [['tester', 'drift', 'standard.csv'], 'germane/steadiness/1', [1]],
  [['tester', 'found', 'larkfield', 'found.csv'], 'germane/found/1', [1]],
  [['tester', 'diagnose', 'larkfield', '--saw', '10 mA: pegged'], 'germane/diagnosis/1'],
  [['tester', 'calibrate', 'tester.yaml', 'calibration.csv'], 'germane/calibration/1'],
  [['tester', 'certificate', 'bench-tester', '--book', 'calibrated.germane'], 'germane/calibration/1'],
  [['tester', 'check', 'larkfield'], 'germane/health/1'],
  [['tester', 'schema'], 'schema'],
  [['tester', 'code', '4K7J'], 'germane/resistor-code/1'],
  [['tester', 'resistor', '11.1', '--current', '10 mA'], 'germane/resistor/1'],
  [['tester', 'shunt', '1 mA', '15 V', '--tester', 'larkfield'], 'germane/shunts/1'],
  [['tester', 'ohms', '--mid', '1.2 kohm', '--movement', '50 uA', '--coil', '2 kohm'], 'germane/ohm-scale/1'],
  [['tester', 'wire', '0.111', '--current', '1 A'], 'germane/wire-shunt/1'],
  [['tester', 'coil', '--half', '990 ohm', '--series', '100 kohm'], 'germane/movement-measured/1'],
  [['tester', 'movement', 'scale.csv', '--class', '1'], 'germane/movement-check/1'],
  [['tester', 'protect', '--tester', 'larkfield', '--range', '10 mA'], 'germane/protection/1'],
  [['tester', 'dial', 'dial.csv', '--fixed', '1 kohm'], 'germane/gain-dial/1'],
  [
    ['tester', 'cells', '1 A', '--count', '3', '--rest', '4.5 V', '--loaded', '4.2 V', '--current', '500 mA'],
    'germane/cells/1',
  ],
  [['type', 'find', 'AC1'], 'germane/types/1'],
  [['type', 'show', 'AC128'], 'germane/types/1'],
  [['type', 'explain', 'AC128'], 'germane/type-number/1'],
  [['type', 'check', 'types.yaml'], 'germane/check/1'],
  [['type', 'mark', '2N404', 'scarce', '--book', 'demo.germane'], 'germane/availability/1'],
  [['type', 'add', 'types.yaml', '--book', 'types.germane'], 'germane/saved/1'],
  [['type', 'schema'], 'schema'],
  [['part', 'list', '--book', 'demo.germane'], 'germane/parts/1'],
  [['part', 'show', 'OP-4', '--book', 'demo.germane'], 'germane/part/1'],
  [['part', 'edit', 'OP-4', '--place', 'bag 3', '--book', 'demo.germane'], 'germane/parts/1'],
  [['part', 'correct', '2', '11 div', '--book', 'demo.germane'], 'germane/correction/1'],
  [['part', 'curve', 'OP-4', 'curve.csv', '--book', 'demo.germane'], 'germane/part-curves/1'],
  [['part', 'curves', 'OP-4', '--book', 'demo.germane'], 'germane/part-curves/1'],
  [['job', 'schema'], 'schema'],
  [['job', 'list', '--book', 'demo.germane'], 'germane/jobs/1'],
  [['job', 'show', '1', '--book', 'demo.germane'], 'germane/job/1'],
  [['job', 'add', 'job.yaml', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['job', 'edit', 'Hut intercom', '--state', 'waiting', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['job', 'position', 'Hut intercom', 'TR5', '--type', 'OC71', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['job', 'reserve', 'Hut intercom', 'OP-6', '--for', 'TR2', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['job', 'release', 'OP-6', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['job', 'fit', 'Hut intercom', 'TR2', 'OP-6', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['job', 'photo', 'Hut intercom', 'board.png', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['job', 'report', 'Hut intercom', '--book', 'demo.germane'], 'germane/job/1'],
  [['job', 'remove', 'Hut intercom', '--book', 'demo.germane'], 'germane/job-edit/1'],
  [['book', 'create', 'new.germane'], 'germane/book-info/1'],
  [['book', 'info', '--book', 'demo.germane'], 'germane/book-info/1'],
  [['book', 'check', '--book', 'demo.germane'], 'germane/book-check/1'],
  [['book', 'recompute', '--tester', 'larkfield', '--book', 'demo.germane'], 'germane/recompute/1'],
  [['book', 'backup', 'copy.germane', '--book', 'demo.germane'], 'germane/backup/1'],
  [['book', 'export', '--book', 'demo.germane'], 'germane/book/1'],
  [['book', 'import', 'book.json', 'made.germane'], 'germane/book-info/1'],
  [['book', 'fill', '--parts', '5', '--book', 'filled.germane'], 'germane/book-fill/1'],
  [['report', '--lot', 'orrin-point', '--book', 'demo.germane', '--out', 'page.html'], 'germane/report/1'],
  [['demo', '--book', 'again.germane'], 'germane/verdicts/1'],
]

describe('every verb and sub-verb', () => {
  test('has a help text with its way of writing and a sentence', async () => {
    expect(all.length).toBeGreaterThan(verbs.length)
    for (const path of all) {
      const text = await printed([...path, '--help'])
      expect(text).toContain(`Usage: germane ${path.join(' ')}`)
      expect(text).toMatch(/\n\n[A-Z][^\n]+/)
    }
  })

  test('has a help text of at most 80 columns', async () => {
    for (const path of [[], ...all]) {
      const wide = (await printed([...path, '--help'])).split('\n').filter((line) => line.length > 80)
      expect(wide, path.join(' ')).toEqual([])
    }
  })

  test('prints an example: its own where it has one, else that of its group', async () => {
    const commandOf = (path: readonly string[]): Command =>
      path.reduce((c, name) => c.commands.find((s) => s.name() === name)!, program as Command)
    for (const path of all.filter(([verb]) => verb !== 'demo')) {
      const text = await printed([...path, '--example'])
      expect(text.length, path.join(' ')).toBeGreaterThan(20)
      const hasOwn = commandOf(path).options.some((o) => o.long === '--example')
      expect(text === (await printed([path[0]!, '--example'])), path.join(' ')).toBe(path.length === 1 || !hasOwn)
    }
  })

  test('prints its example as one document with --json', async () => {
    for (const path of all.filter(([verb]) => verb !== 'demo')) {
      const document = JSON.parse(await printed([...path, '--example', '--json'])) as Record<string, unknown>
      if (document.format === 'germane/example/1')
        expect(document.text, path.join(' ')).toBe(await printed([...path, '--example']))
    }
  })

  test('prints both on stdout alone', async () => {
    const some = all.filter((path) => path.length === 1 || path[1] === 'show')
    await fewAtATime(
      some.flatMap((path) => [[...path, '--help'], ...(path[0] === 'demo' ? [] : [[...path, '--example']])]),
      async (args) => {
        const said = await g.run(args)
        expect({ code: said.code, err: said.err }, args.join(' ')).toEqual({ code: 0, err: '' })
        expect(said.out.length).toBeGreaterThan(20)
      },
    )
  })

  test('that does something is among those tried here', () => {
    const groups = program.commands.filter((c) => c.commands.length > 0).map((c) => c.name())
    // `serve` goes on until it is stopped; its own tests start and stop it
    const doing = all.map((p) => p.join(' ')).filter((p) => !groups.includes(p) && p !== 'serve')
    const tried = new Set(working.map(([args]) => args.slice(0, groups.includes(args[0]!) ? 2 : 1).join(' ')))
    expect(doing.filter((p) => !tried.has(p))).toEqual([])
  })

  test('prints one document with --json, and nothing else', async () => {
    for (const [args, format, codes = [0]] of working) {
      const said = await g.run([...args, '--json'])
      const document = oneDocument(args[0] === 'run' ? { ...said, err: '' } : said, codes)
      if (format === 'schema') expect(document.$schema).toContain('json-schema.org')
      else expect(document.format, args.join(' ')).toBe(format)
    }
  }, 120_000)

  test('has a summary that is a sentence', () => {
    const commands = (c: Command): readonly Command[] => c.commands.flatMap((s) => [s, ...commands(s)])
    for (const c of commands(program)) expect(c.description(), c.name()).toMatch(/^[A-Z].*\.$/)
  })
})

describe('examples work as they stand', () => {
  test('readings, as a file and on standard input', async () => {
    const { out } = await g.run(['reduce', '--example'])
    const fromFile = await g.run(['reduce', 'readings.csv', '--tester', 'tester.yaml', '--json'])
    const typed = await g.run(['reduce', '-', '--tester', 'tester.yaml', '--json'], { input: out })
    expect(oneDocument(typed)).toEqual(oneDocument(fromFile))
  })

  test('and so do their JSON forms', async () => {
    await g.run(['book', 'create', 'forms.germane'])
    const read = [
      [['reduce'], ['reduce', '-', '--tester', 'tester.yaml']],
      [['circuit'], ['circuit', '-']],
      [['tester'], ['tester', 'check', '-']],
      [['type'], ['type', 'check', '-']],
      [['stage'], ['stage', '-', '--count', '0']],
      [['standin'], ['standin', '--position', '-', '--count', '1']],
      [['job'], ['job', 'add', '-', '--book', 'forms.germane']],
    ] as const
    await fewAtATime(read, async ([example, args]) => {
      const { out } = await g.run([...example, '--example', '--json'])
      expect(JSON.parse(out)).not.toHaveProperty('text')
      oneDocument(await g.run([...args, '--json'], { input: out }))
    })
  })

  test('--json of a group is that of its verb, wherever it stands', async () => {
    const last = await g.run(['tester', 'list', '--json'])
    expect(await g.run(['tester', '--json', 'list'])).toEqual(last)
    expect(oneDocument(last)).toMatchObject({ format: 'germane/testers/1' })
    expect(refusal(await g.run(['type', '--json']))).toContain('No verb of type was named. Name one: find, show,')
  })

  test('a tester on standard input', async () => {
    const said = await g.run(['tester', 'check', '-', '--json'], { input: g.read('tester.yaml') })
    expect(oneDocument(said)).toMatchObject({ ok: true, tester: { id: 'bench-tester' } })
  })

  test('part types on standard input', async () => {
    const said = await g.run(['type', 'check', '-', '--json'], { input: g.read('types.yaml') })
    expect(oneDocument(said)).toMatchObject({ ok: true, types: [{ type: 'GX-17' }, { type: 'GX-80' }] })
  })

  test('a part type that says against itself', async () => {
    const text = 'type: GX-99\nfamily: bjt\npolarity: NPN\nmaterial: Si\nratings:\n  V_CBO: 30 V\n  V_CEO: 45 V\n'
    const said = await g.run(['type', 'check', '-', '--json'], { input: text })
    expect(oneDocument(said)).toMatchObject({ doubts: [{ type: 'GX-99', says: 'V_CEO 45 V is above V_CBO 30 V.' }] })
    const { out } = await g.run(['type', 'check', '-'], { input: text })
    expect(out).toMatch(/No limits are known for it\.\n\n {2}GX-99 says against itself .*\n {2}- V_CEO 45 V is above/)
  })

  test('a job, as a file and on standard input', async () => {
    await g.run(['book', 'create', 'jobs.germane'])
    const typed = await g.run(['job', 'add', '-', '--json', '--book', 'jobs.germane'], { input: g.read('job.yaml') })
    expect(oneDocument(typed)).toMatchObject({ name: 'Hut intercom', edit: 1 })
    const again = await g.run(['job', 'add', 'job.yaml', '--book', 'jobs.germane'])
    expect(refusal(again)).toBe('job: "Hut intercom" is the name of a job already. Give this job another name.\n')
  })

  test('a book on standard input', async () => {
    const said = await g.run(['book', 'import', '-', 'typed.germane', '--json'], { input: g.read('book.json') })
    expect(oneDocument(said)).toMatchObject({ file: 'typed.germane' })
  })
})

describe('the command line itself', () => {
  test('says its version and, asked for nothing, its help', async () => {
    expect(await g.run(['--version'])).toMatchObject({
      code: 0,
      err: '',
      out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/),
    })
    const help = await g.run(['--help'])
    expect(help).toMatchObject({ code: 0, err: '' })
    for (const verb of verbs) expect(help.out).toContain(verb.summary)
    expect(await g.run([])).toEqual(help)
    expect(await g.run(['help'])).toEqual(help)
  })

  test('help VERB is VERB --help', async () => {
    expect(await g.run(['help', 'judge'])).toEqual(await g.run(['judge', '--help']))
    expect(await g.run(['help', 'tester', 'read'])).toEqual(await g.run(['tester', 'read', '--help']))
  })

  test.each([
    [['help', 'juge'], /no verb of germane called "juge"\. Near it: judge\./],
    [['tester', 'shwo', '--json'], /no verb of germane tester called \\"shwo\\"/],
    [['judge', '--tster', 'x'], /no option of germane judge called "--tster"\. Near it: --tester\./],
    [['tester', 'show'], /germane tester show lacks its <tester>\./],
  ] as const)('refuses %j on stderr, with exit code 2', async (args, sentence) => {
    expect(refusal(await g.run(args))).toMatch(sentence)
  })

  test.each([
    [['juge'], /no verb of germane called "juge"\. Near it: judge\. Its verbs are: plan, run,/],
    [['tester', 'shwo', 'larkfield'], /no verb of germane tester called "shwo"\. Near it: show\./],
    [['judge', '--tster', 'x'], /no option of germane judge called "--tster"\. Near it: --tester\./],
    [['part', 'show', 'A1', '--boook', 'x'], /no option of germane part show called "--boook"\. Near it: --book\./],
    [['--nope'], /no option of germane called "--nope"\. Name a verb first: plan,/],
    [['tester', '--range'], /no option of germane tester called "--range"\. Name a verb first: list,/],
    [['tester', 'read', 'larkfield', 'V_BE', '-0.65V'], /Write -- before a value that begins with a minus sign\./],
    [
      ['tester', 'show'],
      /germane tester show lacks its <tester>\. Write it as: germane tester show \[options\] <tester>\./,
    ],
    [['book', 'import', 'a'], /germane book import lacks its <book>\./],
    [['judge', 'a.csv', 'b.csv'], /"b\.csv" is more than germane judge takes\. .*Text with blanks goes in quotes\./],
    [['judge', 'a.csv', '--tester'], /--tester lacks its value\. Write it as --tester <tester>\./],
  ] as const)('refuses %j in a sentence', async (args, sentence) => {
    const here = await commandLine(() => true)
    const error = await here.parseAsync(args, { from: 'user' }).then(
      () => undefined,
      (e: unknown) => e,
    )
    expect(error).toBeInstanceOf(CommanderError)
    const said = explain(usageFault(error as CommanderError, here, args))
    expect(said).toMatch(sentence)
    expect(said).toMatch(/^[^\n]+[.?]$/)
  })

  test('faults with --json are one document on stderr', async () => {
    const said = await g.run(['tester', 'show', 'nobody', '--json'])
    const document = JSON.parse(refusal(said))
    expect(document).toMatchObject({ format: 'germane/faults/1', faults: [{ code: 'not-found', name: 'nobody' }] })
    expect(document.faults[0].sentence).toMatch(/^There is no tester called "nobody"\./)
  })

  test('ends quietly when its reader has gone', async () => {
    const talk = g.start(['type', 'find'])
    talk.child.stdout?.destroy()
    const { err, code } = await talk.ended
    expect({ err, code }).toEqual({ err: '', code: 0 })
  })
})
