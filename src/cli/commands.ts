import type { Command } from 'commander'

/** One verb of the command line; its module is loaded only when the verb is used, so that `--help` stays quick. */
export interface Verb {
  readonly name: string
  /** One sentence, shown by `germane --help`. */
  readonly summary: string
  readonly load: () => Promise<{ readonly define: (command: Command) => void }>
}

export const verbs: readonly Verb[] = [
  { name: 'plan', summary: 'Makes a safe run sheet for a part type on a tester.', load: () => import('./plan.ts') },
  { name: 'run', summary: 'Asks for the readings of a run sheet, step by step.', load: () => import('./run.ts') },
  { name: 'reduce', summary: 'Turns readings into parameters with uncertainty.', load: () => import('./reduce.ts') },
  { name: 'judge', summary: 'Holds parameters against published limits.', load: () => import('./judge.ts') },
  {
    name: 'rehearse',
    summary: 'Plays a run sheet with parts whose truth is known.',
    load: () => import('./rehearse.ts'),
  },
  { name: 'identify', summary: 'Says what an unmarked part is.', load: () => import('./identify.ts') },
  { name: 'circuit', summary: 'Computes the operating point of a circuit.', load: () => import('./circuit.ts') },
  { name: 'match', summary: 'Finds the sets of parts that go together best.', load: () => import('./match.ts') },
  { name: 'stage', summary: 'Says whether a part will work in a position.', load: () => import('./stage.ts') },
  { name: 'standin', summary: 'Finds what stands in for a dead part.', load: () => import('./standin.ts') },
  { name: 'curve', summary: 'Draws, compares and resamples curves.', load: () => import('./curve.ts') },
  { name: 'fit', summary: 'Fits the law of a part to its curve; writes model cards.', load: () => import('./fit.ts') },
  { name: 'tester', summary: 'Lists, shows, checks and keeps testers.', load: () => import('./tester.ts') },
  { name: 'type', summary: 'Finds, shows and keeps part types, explains numbers.', load: () => import('./type.ts') },
  { name: 'part', summary: 'Lists, shows and edits the parts in a book.', load: () => import('./part.ts') },
  { name: 'job', summary: 'Keeps the equipment you mend, position by position.', load: () => import('./job.ts') },
  { name: 'book', summary: 'Makes, checks, backs up, exports and imports a book.', load: () => import('./book.ts') },
  { name: 'report', summary: 'Writes a page to read and print.', load: () => import('./report.ts') },
  { name: 'serve', summary: 'Serves the page to this computer, or to a tablet.', load: () => import('./serve.ts') },
  { name: 'demo', summary: 'Makes the demo book and prints its results.', load: () => import('./demo.ts') },
]
