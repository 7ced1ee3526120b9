import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { fitDocument } from '#bench'
import { demo } from '#catalog'
import { modelCardExample } from '#core/circuit'
import { curveExampleCsv } from '#core/fit'
import { stageExampleYaml } from '#core/stage'
import {
  calibrationExampleCsv,
  checkStandardExampleCsv,
  compareExampleCsv,
  dialExampleCsv,
  foundExampleCsv,
  gaugeExampleCsv,
  scaleExampleCsv,
} from '#core/upkeep'
import selfHeated from '../../src/core/circuit/self-heated-together.ref.json' with { type: 'json' }
import { fileOf, meter, ownType, readingsOf } from './bench.ref.ts'
import { fewAtATime, germane, type Said } from './germane.ts'
import { type Found, formats, hold, isIn, sectionOfFormat, sections } from './json-page.ts'

const g = germane()

/** Readings between leads that fit nothing, that wait for a third lead joined, and of resistance. */
/** With a needle meter: a short that breakdown would tell more of, and a leak that warmth would. */
const trials = `part,plus,minus,shows,joined,leads
A,2,1,2.25 kohm on x100,plus,3
A,3,2,0 ohm on x100,minus,
A,1,2,open on x100,,
A,3,1,2.45 kohm on x100,,
A,2,1,1.8 kohm on x100,,
A,3,1,14.5 kohm on x1k,,
A,3,1,1.9 kohm on x100,plus,
G,2,1,2 kohm on x1k,,2
G,1,2,325 kohm on x1k,,
G,2,1,400 ohm on x100,,
`
const oddLeads = `part,plus,minus,shows,leads
X,1,2,2.1 V,3
X,2,1,0.9 V,
X,1,3,1.4 V,
X,3,1,2.4 V,
X,2,3,0.02 V,
X,3,2,open,
Y,2,3,0.56 V,3
Y,1,2,open,
Y,1,3,open,
Y,2,1,open,
Y,3,1,open,
Y,3,2,open,
Z,1,2,open on 2M,2
Z,2,1,0.29 V,
`

const demoBook = ['--book', 'demo.germane']
const calibratedBook = ['--book', 'recomputed.germane']
const ownBook = ['--book', 'own.germane']
const keptBook = ['--book', 'kept.germane']

/** Commands that between them print every document, after those that make what they need. */
const first: readonly (readonly string[])[] = [
  ['demo', ...demoBook],
  ['type', 'add', 'own.yaml', ...ownBook],
  ['tester', 'add', 'meter.yaml', ...ownBook],
  ['judge', 'lot.csv', '--tester', 'meter.yaml', '--type', 'HX-40', '--keep', ...ownBook],
  ['judge', 'scale.csv', '--tester', 'example.yaml', '--keep', ...ownBook],
  ['part', 'edit', 'OP-4', '--place', 'bag 3', '--used-in', 'recorder', ...demoBook],
  ['part', 'edit', 'OP-4', '--place', '', ...demoBook],
  ['part', 'correct', '2', '11 div', ...demoBook],
  ['type', 'mark', '2N1305', 'scarce', ...demoBook],
  ['tester', 'found', 'larkfield', 'found.csv', '--keep', ...keptBook],
  ['job', 'add', 'job.yaml', ...demoBook],
  ['job', 'edit', 'Hut intercom', '--finished', '2026-04-01', ...demoBook],
  ['job', 'edit', 'Hut intercom', '--equipment', 'intercom of two stations', ...demoBook],
  ['part', 'edit', 'OP-10', '--used-in', 'tray', ...demoBook],
  ['job', 'reserve', 'Hut intercom', 'OP-10', ...demoBook],
  ['job', 'position', 'Hut intercom', 'TR5', '--circuit', 'npn.yaml', '--found-part', 'OP-11', ...demoBook],
  ['job', 'fit', 'Hut intercom', 'TR2', 'OP-6', '--words', 'with a socket', ...demoBook],
  ['job', 'photo', 'Hut intercom', 'board.png', ...demoBook],
  [
    ...['part', 'curve', 'OP-4', 'told.csv', '--temperature', '23', '--taken', '2026-04-30', '--note', 'cold'],
    ...demoBook,
  ],
]
const printing: readonly (readonly string[])[] = [
  ['match', '--example'],
  ['part', '--example'],
  ['judge', 'demo.csv', '--tester', 'larkfield'],
  ['reduce', 'lot.csv', '--tester', 'meter.yaml', '--type', 'HX-40'],
  ['plan', '2N1305', '--tester', 'larkfield'],
  ['plan', 'BC547B', '--tester', 'tallow'],
  ['plan', '1N4148', '--tester', 'larkfield', '--if', '10 mA'],
  ['plan', 'HX-40', '--tester', 'meter.yaml', ...ownBook],
  [
    'plan',
    'unknown',
    '--tester',
    'marlpit',
    '--polarity',
    'PNP',
    '--material',
    'Ge',
    '--ic',
    '1 mA',
    '--supply',
    '3 V',
  ],
  ['plan', 'unknown', '--tester', 'copperhill', '--family', 'diode', '--if', '1 mA'],
  ['run', '2N1305', '--tester', 'larkfield', '--book', 'run.germane'],
  ['judge', 'bad.csv', '--tester', 'meter.yaml'],
  ['rehearse', 'part.mod', '--type', '2N1305', '--tester', 'larkfield'],
  ['rehearse', 'weak.mod', '--tester', 'larkfield', '--parts', '2'],
  ['identify', 'leads.csv', '--types', '--gain', '80'],
  ['identify', 'odd.csv'],
  ['identify', 'trials.csv', '--meter', 'needle', '--also', 'breakdown', '--marking', 'BC107'],
  ['identify', 'leads.csv', '--types', ...demoBook],
  ['circuit', 'stage.json', '--sensitivity', 'node:c', '--sensitivity', 'Q1.ic'],
  ['circuit', 'stage.json', '--sweep-temperature', '0:50:25'],
  ['circuit', 'loose.cir'],
  ['circuit', 'pair.cir', '--rth', 'Q1=40', '--rth', 'Q2=40'],
  ['circuit', 'pair.cir', '--rth', 'Q1=400'],
  ['circuit', 'pair.cir', '--rth', 'Q1=40', '--sweep-temperature', '0:50:25'],
  ['circuit', 'parts.cir'],
  ['tester', 'check', 'bad.yaml'],
  ['tester', 'show', 'larkfeld'],
  ['judge', 'nothere.csv', '--tester', 'meter.yaml'],
  ['judge'],
  ['tester', 'list', ...ownBook],
  ...['larkfield', 'marlpit', 'tallow', 'copperhill'].map((t) => ['tester', 'show', t]),
  ['tester', 'show', 'twin-meter', ...ownBook],
  ['tester', 'check', 'example.yaml'],
  ['tester', 'check', 'display.yaml'],
  ['tester', 'read', 'larkfield', 'I_CEO', '12 div', '--range', '100 uA'],
  ['tester', 'read', 'larkfield', 'h_FE', '86', '--range', 'middle'],
  ['tester', 'read', 'larkfield', 'I_C', '12 div', '--range', '1 mA', '--ambient', '21 C'],
  ['tester', 'code', 'orange', 'white', 'black', 'gold', 'green', 'red'],
  ['tester', 'code', '4K7J'],
  ['tester', 'code', '4k7'],
  ['tester', 'resistor', '11.1', '--current', '10 mA'],
  ['tester', 'resistor', '0.04', '--series', 'E3'],
  ['tester', 'shunt', '10 mA', '100 V', '--tester', 'larkfield', '--ring'],
  ['tester', 'shunt', '100 uA', '5 A', '--movement', '100 uA', '--coil', '1 kohm'],
  ['tester', 'ohms', '--mid', '1.2 kohm', '--movement', '50 uA', '--coil', '2 kohm'],
  ['tester', 'wire', '0.111', '--current', '1 A'],
  ['tester', 'coil', '--half', '990 ohm', '--series', '100 kohm'],
  ['tester', 'coil', '--swap', '990 ohm', '--series', '10 kohm', '--reference', '97 uA'],
  ['tester', 'coil', '--reference', '97 uA'],
  ['tester', 'movement', 'movement.csv', '--class', '1', '--reference', '0.2 %'],
  ['tester', 'movement', 'worn.csv'],
  ['tester', 'protect', '--tester', 'larkfield', '--range', '10 mA'],
  ['tester', 'protect', '--range', '10 V', '--movement', '50 uA', '--coil', '2 kohm', '--source', '250 V'],
  ['tester', 'protect', '--range', '1 mA', '--movement', '100 uA', '--coil', '1 kohm', '--source', '4.5 V'],
  ['tester', 'dial', '--fixed', '1 kohm', '--pot', '100 kohm', '--end', '300 ohm'],
  ['tester', 'dial', 'dial.csv', '--fixed', '1 kohm'],
  ['tester', 'found', 'larkfield', 'found.csv'],
  ['tester', 'diagnose', 'larkfield', '--saw', '100 uA: none'],
  ['tester', 'diagnose', 'larkfield', '--saw', '100 uA: none', '--kept', ...keptBook],
  ['tester', 'check', 'larkfield', ...keptBook],
  ['tester', 'drift', '--tester', 'larkfield', '--part', 'OP-4', '--keep', '--low', '50', '--high', '200', ...demoBook],
  ['tester', 'diagnose', 'larkfield', '--saw', 'all: -8 %'],
  ['tester', 'diagnose', 'marlpit', '--checks'],
  ['tester', 'cells', '2 A', '--count', '3', '--rest', '4.5 V', '--loaded', '4.2 V', '--current', '500 mA'],
  [
    'tester',
    'cells',
    '--count',
    '6',
    '--rest',
    '9 V',
    '--loaded',
    '8 V',
    '--resistor',
    '47 ohm',
    '--tester',
    'larkfield',
  ],
  ['tester', 'dial', '--bridge', 'divider', '--fixed', '1 kohm', '--pot', '500 kohm'],
  ['tester', 'wire', '0.111', '--current', '20 A', '--gauge', '36'],
  ['tester', 'compare', 'pairs.csv', '--max', '50 uA'],
  ['tester', 'gauge', 'hands.csv', '--tolerance', '50 uA'],
  ['tester', 'gauge', 'wild.csv', '--method', 'ranges'],
  ['tester', 'drift', 'standard.csv', '--baseline', '12', '--ewma', '0.2', '--high', '122.5'],
  [
    ...[
      'tester',
      'calibrate',
      'example.yaml',
      'calibration.csv',
      '--date',
      '2024-05-12',
      '--ambient',
      '21 C',
      '--keep',
    ],
    ...[
      '--by',
      'E. Marsh',
      '--reference',
      'meter',
      '--note',
      'n',
      '--from',
      '2024-05-01',
      '--book',
      'calibrated.germane',
    ],
  ],
  ['tester', 'calibrate', 'example.yaml', 'calibration.csv', '--date', '2024-05-12', '--law', 'curve'],
  ['tester', 'calibrate', 'example.yaml', 'low.csv', '--date', '2024-05-12'],
  ['tester', 'check', 'calibrated.yaml'],
  ['fit', 'diode', 'curve.csv', '--temperature', '23'],
  ['fit', 'diode', 'few.csv', '--hand', '--common', '2 %'],
  ['fit', 'bjt', 'gains.csv', '--hand'],
  ['fit', 'diode', 'curve.csv', 'told.csv'],
  ['fit', 'bjt', 'gummel.csv'],
  ['fit', 'diode', 'curve.csv', 'bad.csv'],
  ['curve', 'gummel.csv', '--plot', 'lin', '--points', '4'],
  ['curve', 'told.csv', '--write', 'told.svg', '--points', '3', '--from', '0.5', '--to', '0.55', '--spacing', 'log'],
  ['curve', 'told.csv'],
  ['curve', 'gummel.csv', 'gummel.csv', '--compare', '--plot', 'output'],
  ['curve', 'told.csv', 'other.csv', '--compare', '--write', 'two.png'],
  ['type', 'find'],
  ['type', 'show', 'AC128'],
  ['type', 'check', 'types.yaml'],
  ...['AC128', '2SB56', 'OC71', 'ZZ'].map((n) => ['type', 'explain', n]),
  ['part', 'list', ...demoBook],
  ['part', 'curves', 'OP-4', ...demoBook],
  ['part', 'curves', 'OP-4', '--plot', 'lin', ...demoBook],
  ['part', 'curves', 'OP-4', '--write', 'part.png', ...demoBook],
  ['part', 'show', 'OP-4', ...demoBook],
  ['part', 'show', 'OP-1', ...demoBook],
  ['job', 'list', ...demoBook],
  ['job', 'show', '1', ...demoBook],
  ['job', 'show', 'Hut intercom', ...demoBook],
  ['part', 'show', 'IN', ...ownBook],
  ['part', 'show', 'SC', ...ownBook],
  ['book', 'info', ...demoBook],
  ['book', 'create', 'new.germane'],
  ['book', 'import', 'edited.json', 'edited.germane'],
  ['book', 'check', ...demoBook],
  ['book', 'backup', 'copy.germane', ...demoBook],
  ['book', 'export', ...demoBook],
  ['book', 'export', '--csv', '--out', 'readings.csv', ...demoBook],
  ['book', 'fill', '--parts', '5', '--book', 'filled.germane'],
  ['report', 'lot.csv', '--tester', 'meter.yaml', '--out', 'page.html'],
  ['report', 'lot.csv', '--tester', 'meter.yaml'],
  ['match', 'parts.csv', '--by', 'ln_hfe:0.05,vbe_mV:5', '--sets', '3', '--together', 'OP-1+OP-2'],
  ['match', 'parts.csv', '--by', 'vbe_mV:5', '--grades', 'red,green', '--how', 'natural'],
  ['match', '--wants'],
  ['stage', 'position.yaml', '--part', 'OP-6', '--count', '20', ...demoBook],
  ['stage', 'hot.yaml', '--count', '5'],
  ['stage', 'position.yaml', '--rank', ...demoBook],
  ['stage', 'position.yaml', '--re-bias', '--type', 'BC107'],
  ['stage', 'fixed.yaml', '--re-bias', '--type', 'AC128'],
  ['stage', '--templates'],
  ['standin', 'OC71'],
  ['standin', '1N5408'],
  ['standin', '--position', 'position.yaml', ...demoBook],
  ['standin', '2N404', '--voltage', '9 V', ...demoBook],
  ['type', 'mark', 'AC128', 'none', ...ownBook],
  ['match', '--want', 'gain-cascade', '--sets', '1', ...demoBook],
  [
    'match',
    '--by',
    'h_FE:10',
    '--within',
    'h_FE:20%',
    '--between',
    'h_FE:50..400',
    '--across',
    'polarity',
    ...demoBook,
  ],
]

const documents: Record<string, unknown>[] = []

const keep = (said: Said): void => {
  documents.push(JSON.parse(said.out === '' ? said.err : said.out) as Record<string, unknown>)
}

/** A book in which a stored result was changed by hand, for the check to find. */
async function editBook(): Promise<void> {
  const { out } = await g.run(['book', 'export', ...demoBook])
  const whole = JSON.parse(out) as { tables: { parameter: { value: number }[] } }
  whole.tables.parameter[0]!.value *= 2
  g.write('edited.json', JSON.stringify(whole))
}

beforeAll(async () => {
  g.write('meter.yaml', meter)
  g.write('own.yaml', ownType)
  g.write('demo.csv', demo.readings)
  g.write('part.mod', modelCardExample)
  g.write('position.yaml', stageExampleYaml)
  g.write(
    'npn.yaml',
    'stage: divider\npolarity: NPN\nsupply: 9 V\nvalues: { R1: 33 kohm, R2: 6.8 kohm, RC: 2.7 kohm, RE: 1 kohm }\nparts: { Q1: BC999 }\n',
  )
  g.write('job.yaml', (await g.run(['job', '--example'])).out)
  g.write('board.png', Buffer.from('\x89PNG\r\n\x1a\n\0\0\0\rIHDR', 'latin1'))
  const fixed = 'stage: fixed-bias\npolarity: PNP\nsupply: 9 V\nvalues: { RB: 680 kohm, RC: 3.3 kohm }\n'
  const power = '{ material: Ge, gain: 60, at: 100 mA, leakage: 0.2 mA, vbe: 0.25 V, thermalResistance: 20 K/W }'
  g.write('hot.yaml', `${fixed.replace('680 kohm, RC: 3.3 kohm', '82 kohm, RC: 0.5 ohm')}parts: { Q1: ${power} }\n`)
  g.write('fixed.yaml', `${fixed}parts: { Q1: { material: Ge, gain: 70, leakage: 1 uA } }\n`)
  g.write('weak.mod', '.model weak PNP(IS=1u BF=80 RC=1meg)\n')
  const parts = [readingsOf('IN', '40 uA', '10.04 mA', '100 uA'), readingsOf('OUT', '0.2 mA', '10.2 mA', '100 uA')]
  g.write('lot.csv', fileOf(...parts))
  g.write('bad.csv', fileOf(...parts).replace(',1,5 V', ',0,5 V'))
  g.write('bad.yaml', meter.replace('digital', 'digitl'))
  const example = (await g.run(['tester', '--example'])).out
  g.write('example.yaml', example.replace('coil: 1.1 kohm', 'coil: 1.1 kohm\n  coilTolerance: 1 %'))
  const bend = 'law: { kind: curve, shown: [1 V, 2 V], correction: [0 V, 0 V], u: [0 V, 0 V] }'
  const one = `{ range: 1 V, trust: trusted, why: w, from: 0.1 V, to: 1 V, ${bend}, uReference: 0 V, uRepeat: 0 V }`
  g.write('calibrated.yaml', `${example}calibrations:\n  - { date: "2024-05-12", ranges: [${one}] }\n`)
  g.write('display.yaml', meter.replace(/gain: .*/, 'gain: { kind: digital, ofReading: 5 %, counts: 1, step: 1 }'))
  g.write(
    'scale.csv',
    'part,reads,shown,range,scale,supply,ambient\nSC,I_CEO,7 div,1 mA,100,4.5 V,21 degC +- 0.5 degC\n',
  )
  g.write('curve.csv', curveExampleCsv.diode)
  g.write('told.csv', 'V_F [V],I_F [A],sigma\n0.5,1e-6,1e-8\n0.55,3e-6,3e-8\n0.6,9.1e-6,1e-7\n')
  g.write('few.csv', 'V_F [V],I_F [mA]\n0.600(1),1.00(1)\n0.650(1),2.91(3)\n0.700(1),8.5(1)\n')
  g.write('gains.csv', 'V_CE [V],I_B [uA],I_C [mA]\n4.5,10,1.76(3)\n4.5,40,7.0(1)\n9,40,7.3(1)\n')
  g.write('gummel.csv', curveExampleCsv.bjt)
  g.write('other.csv', 'V_F [V],I_F [A]\n0.5,1.1e-6\n0.6,9.9e-6\n')
  g.write('movement.csv', scaleExampleCsv)
  g.write('worn.csv', 'true [uA],up\n10,14\n50,60\n100,90\n')
  g.write('dial.csv', dialExampleCsv)
  g.write('found.csv', foundExampleCsv)
  g.write('leads.csv', (await g.run(['identify', '--example'])).out)
  g.write('odd.csv', oddLeads)
  g.write('trials.csv', trials)
  g.write('parts.csv', (await g.run(['match', '--example'])).out)
  g.write('pairs.csv', compareExampleCsv)
  g.write('hands.csv', gaugeExampleCsv)
  g.write('calibration.csv', calibrationExampleCsv)
  g.write(
    'low.csv',
    calibrationExampleCsv.replace(/.*down\n/g, '').replace(/([\d.]+) div/g, (_, d) => `${Number(d) * 0.98} div`) +
      [20, 40, 60, 80].map((h) => `low,${h} +- 0.1,${h * 1.03},up\n`).join(''),
  )
  g.write('standard.csv', checkStandardExampleCsv)
  g.write('wild.csv', gaugeExampleCsv.replace(/CX-3,Ada,[\d.]+/, 'CX-3,Ada,29'))
  g.write('stage.json', (await g.run(['circuit', '--example'])).out)
  g.write('loose.cir', 'loose\nR1 a b 1k\n')
  g.write('pair.cir', selfHeated.circuits['push-pull'])
  const models = '.model dx D(IS=1e-9)\n.model jx NJF(VTO=-2)\n.model mx NMOS(VTO=1 KP=0.1)\n'
  g.write(
    'parts.cir',
    `parts\nV1 a 0 5\nR1 a b 1k\nD1 b 0 dx\nR2 a c 1k\nJ1 c 0 0 jx\nR3 a d 1k\nM1 d a 0 0 mx\n${models}`,
  )
  g.write('types.yaml', (await g.run(['type', '--example'])).out)
  await g.run(['book', 'create', 'recomputed.germane'])
  for (const args of first) keep(await g.run([...args, '--json']))
  await editBook()
  await fewAtATime(printing, async (args) => keep(await g.run([...args, '--json'])))
  keep(await g.run(['book', 'check', '--book', 'edited.germane', '--json']))
  for (const day of ['01', '02', '03']) {
    g.write('cs.csv', `part,type,reads,shown,range,at\nCS,unknown,I_CEO,4${day.at(-1)} div,10 mA,2024-06-${day}\n`)
    await g.run(['judge', 'cs.csv', '--tester', 'example.yaml', '--keep', '--again', ...calibratedBook])
  }
  const kept = ['calibrate', 'example.yaml', 'calibration.csv', '--date', '2024-05-12', '--keep']
  await g.run(['tester', ...kept, ...calibratedBook])
  g.write('shunt.csv', 'part,measured,accuracy\nshunt 10 mA,12.1 ohm,0.3 %\n')
  await g.run(['tester', 'found', 'bench-tester', 'shunt.csv', '--keep', '--date', '2024-06-02', ...calibratedBook])
  keep(await g.run(['tester', 'check', 'bench-tester', '--standard', 'CS:I_CEO', '--json', ...calibratedBook]))
  keep(await g.run(['book', 'recompute', '--tester', 'bench-tester', '--json', ...calibratedBook]))
  // what is printed where Ctrl-C ended the fits; a command that is stopped is tried in fit-drawer.test.ts
  documents.push({ ...fitDocument({ outcomes: [], of: 2, isStopped: true }) })
  const serve = g.start(['serve', '--port', '0', '--json', ...demoBook])
  await serve.until('}\n')
  serve.child.kill('SIGINT')
  keep(await serve.ended)
})

describe('the page of JSON documents', () => {
  test('has every format the command prints, and each was printed here', () => {
    const folder = join(import.meta.dirname, '../../src')
    const printed = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((f) => /^(?:cli|bench|book)\b.*(?<!\.test)\.ts$/.test(f))
      .flatMap((f) => [
        ...readFileSync(join(folder, f), 'utf8').matchAll(/(?:format: |exportFormat = )'(germane\/[a-z-]+\/\d+)'/g),
      ])
      .map((m) => m[1]!)
    expect(new Set(formats)).toEqual(new Set([...printed, 'germane/sheet/1']))
    expect(new Set(documents.map((d) => d.format))).toEqual(new Set(formats))
  })

  test('has every key of every document, of its kind, and says which may be left out', () => {
    const found: Found = { wrong: new Set(), met: new Set() }
    for (const d of documents) hold(d, sectionOfFormat(String(d.format))!, found)
    expect([...found.wrong]).toEqual([])
  })

  test('has no key that is never printed', () => {
    const found: Found = { wrong: new Set(), met: new Set() }
    for (const d of documents) hold(d, sectionOfFormat(String(d.format))!, found)
    const all = [...sections.values()].flatMap((s) => [...s.keys.keys()].map((k) => `${s.heading}: ${k}`))
    expect(all.filter((k) => !found.met.has(k))).toEqual([])
  })

  test('shows an excerpt of a real document for each format', () => {
    for (const format of formats) {
      const section = sectionOfFormat(format)!
      const found: Found = { wrong: new Set(), met: new Set() }
      expect(section.example, format).toBeDefined()
      hold(section.example, section, found, true)
      expect([...found.wrong]).toEqual([])
      expect(
        documents.some((d) => isIn(section.example, d)),
        format,
      ).toBe(true)
    }
  })
})
