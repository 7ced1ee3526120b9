import type { JobDetail } from '#api'
import { jobStates } from '#core/job'
import { KeptArea, KeptChoice, KeptLine } from '#web/field'
import { keepJobField } from './edits.ts'

const powers = [
  ['', 'not said'],
  ['battery', 'battery'],
  ['mains', 'mains'],
] as const

const names = {
  name: 'Name',
  equipment: 'Equipment',
  power: 'Runs from',
  state: 'State',
  begunOn: 'Begun',
  finishedOn: 'Finished',
  note: 'Note',
} as const

/** What is said of a job. Each field is kept when one leaves it, and can be undone. */
export function JobAbout({ job }: { readonly job: JobDetail['job'] }) {
  const field = (name: keyof typeof names) => ({
    label: names[name],
    value: job[name] ?? '',
    onKeep: async (text: string): Promise<void> => {
      await keepJobField(job.id, job.name, names[name], { [name]: text })
    },
  })
  return (
    <div className="job-fields">
      <KeptLine {...field('name')} />
      <KeptArea {...field('equipment')} longest={2000} className="job-wide" hint="what it is, in words" />
      <KeptChoice {...field('state')} words={jobStates} />
      <KeptChoice {...field('power')} words={powers} />
      <KeptLine {...field('begunOn')} type="date" />
      <KeptLine {...field('finishedOn')} type="date" />
      <KeptArea {...field('note')} className="job-wide" hint="What is wrong with it, what you were told" />
    </div>
  )
}
