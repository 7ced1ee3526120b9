import type { Command } from 'commander'
import { addPositionTo, changePosition, dropPosition } from '#bench'
import { decisions } from '#core/job'
import { readInput } from './input.ts'
import { type JobOptions, onJob, partNotes, requireChange, sayEdited } from './job-common.ts'
import { choiceOption, clashFault } from './options.ts'

interface PositionOptions extends JobOptions {
  readonly rename?: string
  readonly type?: string
  readonly role?: string
  readonly circuit?: string
  readonly found?: string
  readonly foundPart?: string
  readonly decision?: string
  readonly done?: boolean
  readonly open?: boolean
  readonly note?: string
  readonly remove?: boolean
}

const whichJob = 'name of the job, or its number'

/** Verbs that change the positions of a job. */
export function definePositions(verb: (name: string, description: string) => Command): void {
  verb('position', 'Add a position to a job, or change what is said of it.')
    .argument('<job>', whichJob)
    .argument('<ref>', 'the position: TR3; a new one is added')
    .option('--rename <ref>', 'another name for it')
    .option('--type <type>', 'part type wanted there')
    .option('--role <words>', 'what it does there')
    .option('--circuit <file>', 'its stage, as germane stage takes it; - reads standard input, "" takes it away')
    .option('--found <words>', 'what stood there')
    .option('--found-part <tag>', 'the part that stood there, where it has a tag')
    .option('--decision <decision>', decisions.join(', '))
    .option('--done', 'nothing is left to do; one that was not decided is kept, or replaced where something is fitted')
    .option('--open', 'there is something left to do')
    .option('--note <note>', 'anything to remember')
    .option('--remove', 'take it out of the job')
    .action(position)
  verb('fit', 'Say what was put into a position; a part is used from then on, and no longer reserved.')
    .argument('<job>', whichJob)
    .argument('<ref>', 'the position')
    .argument('[tag]', 'tag of the part; "" takes it out again')
    .option('--words <words>', 'what was put in, where it has no tag; "" takes it away')
    .action(fit)
}

async function position(name: string, ref: string, o: PositionOptions): Promise<void> {
  if (o.done === true && o.open === true) throw clashFault('--done', '--open')
  const changes = changesOf(o)
  if (o.remove === true && Object.keys(changes).length > 0) throw clashFault('--remove', 'a change')
  await onJob(name, o, async (bench, job) => {
    const at = { job: job.id, ref }
    if (o.remove === true) return sayEdited(await dropPosition(bench, at), o, `${ref}: taken out of ${job.name}.`)
    if (!job.positions.some((one) => one.ref === ref)) {
      const { ref: renamed, ...said } = changes
      const done = await addPositionTo(bench, job.id, { ...said, ref: renamed ?? ref } as Parameters<
        typeof addPositionTo
      >[2])
      return sayEdited(done, o, `${renamed ?? ref}: added to ${job.name}.`)
    }
    requireChange(changes, '--type, --role, --circuit, --found, --found-part, --decision, --done, --open or --note')
    sayEdited(await changePosition(bench, at, changes), o, `${ref}: changed.`)
  })
}

function changesOf({ rename, circuit, decision, done, open, type, role, found, foundPart, note }: PositionOptions) {
  const texts = Object.entries({ type, role, found, foundPart, note }).filter(([, text]) => text !== undefined)
  return {
    ...(Object.fromEntries(texts) as Readonly<Record<string, string>>),
    ...(rename === undefined ? {} : { ref: rename }),
    ...(circuit === undefined ? {} : { circuit: circuit === '' ? '' : readInput(circuit).text }),
    ...(decision === undefined ? {} : { decision: choiceOption('--decision', decision, decisions) }),
    ...(done === true ? { done: true } : open === true ? { done: false } : {}),
  }
}

async function fit(
  name: string,
  ref: string,
  tag: string | undefined,
  o: JobOptions & { readonly words?: string },
): Promise<void> {
  const changes = {
    ...(tag === undefined ? {} : { fittedPart: tag }),
    ...(o.words === undefined ? {} : { fitted: o.words }),
  }
  requireChange(changes, 'the tag of a part, or --words')
  await onJob(name, o, async (bench, job) => {
    const what = tag || o.words || 'nothing'
    const done = await changePosition(bench, { job: job.id, ref }, changes)
    sayEdited(done, o, `${ref}: ${what} fitted.`, tag ? await partNotes(bench, job, ref, tag) : [])
  })
}
