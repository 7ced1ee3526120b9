import type { Command } from 'commander'
import {
  answer,
  askAgain,
  type Bench,
  back,
  beginRun,
  currentStep,
  endRun,
  keepLeftOut,
  keepReading,
  leftOutOf,
  onBench,
  openRuns,
  runReadings,
  type Session,
  startSession,
  verdictsDocument,
} from '#bench'
import { explain, FaultError } from '#core/fault'
import { type RunSheet, type Step, windowText } from '#core/sheet'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { failed, judgedLines } from './judge.ts'
import { badOption, benchOptions, bookWords, chosenTester, needsFault, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { type PlanOptions, planned, takesWishes } from './plan.ts'
import { wrapped } from './table.ts'
import { type Ask, typedLines } from './typed-lines.ts'

interface RunOptions extends PlanOptions {
  readonly part?: string
  readonly resume?: boolean
  readonly again?: boolean
}

const exampleTyping = `# Typed into: germane run 2N1305 --tester larkfield --part Q7 --book bench.germane < typed.txt
# An empty line goes on; a reading is typed as it is seen; the short check comes first.


clear
`

export function define(command: Command): void {
  command.argument('[type]', 'part type, such as 2N1305; "unknown" for an unmarked part')
  withJson(takesWishes(command))
    .option('--part <tag>', 'tag of the part; asked for where it is left out')
    .option('--resume', 'go on with the run that was begun last and not ended')
    .option('--again', 'with --resume: ask again for the readings that were left out')
    .option('--example', 'print what could be typed')
    .action(async (typeName: string | undefined, o: RunOptions) => {
      if (o.example === true) return writeExample(exampleTyping, 'text', o)
      if (o.part?.trim() === '')
        throw badOption('--part', o.part, 'is no tag', 'Give each part a tag of its own, such as Q17.')
      if (o.again === true && o.resume !== true) throw needsFault('--again', '--resume')
      const options = benchOptions(o, true)
      const book = bookWords(options)
      await onBench({ ...options, create: true }, async (bench) => {
        const { run, sheet } = o.resume === true ? await lastRun(bench) : await newRun(bench, typeName, o)
        say(o, `Each reading is kept in ${book}.`)
        const ended = await askParts(bench, run, sheet, o)
        if (!ended) {
          say(
            o,
            '',
            `Run ${run} is kept as it is. Go on with: germane run --resume${o.book === undefined ? '' : ` --book ${o.book}`}`,
          )
          if (o.json === true) printJson({ format: 'germane/run/1', run, ended: false })
          return
        }
        const judged = await endRun(bench, run)
        if (o.json === true) printJson(verdictsDocument(judged))
        else printLines(judgedLines(judged, {}))
        if (failed(judged)) process.exitCode = exitCodes.notConforming
      })
    })
}

/** Talk goes to stderr with `--json`, so that stdout holds the one document. */
const talkOf = (o: RunOptions): NodeJS.WriteStream => (o.json === true ? process.stderr : process.stdout)

function say(o: RunOptions, ...lines: readonly string[]): void {
  talkOf(o).write(`${lines.join('\n')}\n`)
}

async function newRun(bench: Bench, typeName: string | undefined, o: RunOptions) {
  if (typeName === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'No part type was named',
      mend: 'Name one, such as 2N1305, "unknown" for an unmarked part, or --resume.',
    })
  const known = chosenTester(bench, o.tester)
  const sheet = planned(bench, known.tester, typeName, o)
  const run = await beginRun(bench, known, sheet)
  return { run: run.id, sheet }
}

async function lastRun(bench: Bench): Promise<{ run: number; sheet: RunSheet }> {
  const open = (await openRuns(bench)).findLast((r) => r.sheet !== undefined)
  if (open?.sheet !== undefined) return { run: open.id, sheet: open.sheet }
  throw new FaultError({
    code: 'usage',
    problem: 'No run was begun and left open in this book',
    mend: 'Begin one with "germane run TYPE --tester T".',
  })
}

/** Asks for part after part; true when the person ended the run, false when they broke off. */
async function askParts(bench: Bench, run: number, sheet: RunSheet, o: RunOptions): Promise<boolean> {
  const { ask, end } = typedLines(process.stdin, talkOf(o))
  try {
    say(o, sheet.title, ...sheet.cautions.flatMap((c) => wrapped(`${c.hazard}: ${c.caution}`, '! ')))
    say(o, 'Enter goes on. b goes back, s leaves a reading out, ? gives advice, q breaks off and keeps everything.')
    let tag = o.part ?? (await unfinishedPart(bench, run)) ?? (await ask('\nTag of the part: '))
    while (tag !== undefined && tag.trim() !== '') {
      if (tag.trim() === 'q') return false
      if (!(await askPart(bench, run, await startPart(bench, run, sheet, tag.trim(), o), ask, o))) return false
      tag = await ask('\nTag of the next part (empty ends the run): ')
    }
    return tag !== undefined
  } finally {
    end()
  }
}

const known = async (bench: Bench, run: number) => (await runReadings(bench, run)).map((r) => r.reading)

/** Where a part stands in the run; what was left out of it stays so, unless it is asked for. */
async function startPart(bench: Bench, run: number, sheet: RunSheet, tag: string, o: RunOptions): Promise<Session> {
  const session = startSession(sheet, tag, await known(bench, run), await leftOutOf(bench, run, tag))
  if (o.again === true) return askAgain(session)
  const names = sheet.steps.flatMap((s) => (s.kind === 'read' && session.leftOut.includes(s.id) ? [s.reads] : []))
  if (names.length > 0)
    say(
      o,
      ...wrapped(
        `${tag}: left out before and not asked again: ${names.join(', ')}. b goes back to the last of them; q, then --resume with --again asks for them all.`,
      ),
    )
  return session
}

/** The part that was being read when the run was broken off. */
async function unfinishedPart(bench: Bench, run: number): Promise<string | undefined> {
  const last = (await known(bench, run)).at(-1)?.part
  return last
}

/** Takes one part through the sheet; false when the person broke off. */
async function askPart(bench: Bench, run: number, first: Session, ask: Ask, o: RunOptions): Promise<boolean> {
  let session = first
  for (let step = currentStep(session); step !== undefined; step = currentStep(session)) {
    say(o, '', ...stepLines(session, step))
    const typed = await ask(step.kind === 'read' ? `  ${step.reads} = ` : '  [Enter] ')
    if (typed === undefined || typed.trim() === 'q') return false
    if (typed.trim() === '?') say(o, ...adviceLines(step))
    else if (typed.trim() === 'b') session = back(session)
    else session = await take(bench, run, session, typed.trim() === 's' ? '' : typed, o)
  }
  say(o, '', session.stopped === undefined ? `${session.part}: done.` : `${session.part}: ${session.stopped}`)
  return true
}

async function take(bench: Bench, run: number, session: Session, typed: string, o: RunOptions): Promise<Session> {
  const { ambientC, ambientU } = session.sheet.wishes
  const got = answer(session, typed, { at: bench.now(), ambientC, ambientU })
  if (got.kind === 'refused') {
    say(o, ...got.error.faults.flatMap((f) => wrapped(explain(f), '  ')))
    return session
  }
  if (got.reading !== undefined) {
    const kept = await keepReading(bench, run, got.reading)
    say(o, `  ${got.echo ?? ''}   [kept ${kept.id}]`)
  }
  if (got.session.leftOut.join() !== session.leftOut.join())
    await keepLeftOut(bench, run, session.part, got.session.leftOut)
  return got.session
}

function stepLines(session: Session, step: Step): readonly string[] {
  const lead = `${session.part} ${session.at + 1}/${session.sheet.steps.length}  `
  const before = session.readings[step.id]
  const more =
    step.kind !== 'read'
      ? []
      : [
          ...(step.window === undefined ? [] : [`  expect ${windowText(step.window, step.scale)}`]),
          ...(step.safeSeconds === undefined ? [] : [`  not longer than ${Math.floor(step.safeSeconds)} s`]),
          ...(before === undefined ? [] : [`  read before: ${before.seen}; Enter keeps it`]),
        ]
  return [...wrapped(step.say, lead), ...wrapped(`${step.why})`, '  ('), ...more]
}

const adviceLines = (step: Step): readonly string[] =>
  step.kind === 'read' && step.odd.length > 0
    ? step.odd.flatMap((a) => wrapped(`${a.symptom}: ${a.advice}`, '  '))
    : ['  Nothing more to say about this step.']
