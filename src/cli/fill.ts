import type { Command } from 'commander'
import { fillBook, onBench } from '#bench'
import { badOption, benchOptions } from './options.ts'
import { printJson, printLines } from './output.ts'

interface FillOptions {
  readonly book?: string
  readonly json?: boolean
  readonly parts: string
  readonly seed: string
}

/** `germane book fill`: invented parts for measuring. */
export function defineFill(command: Command): void {
  command
    .option('--parts <count>', 'how many parts', '1000')
    .option('--seed <number>', 'the same seed gives the same parts', '1')
    .action(async (o: FillOptions) => {
      const wishes = { parts: whole('--parts', o.parts, 1, 1_000_000), seed: whole('--seed', o.seed, 0, 2 ** 31) }
      await onBench({ ...benchOptions(o, true), create: true }, async (bench) => {
        const parts = await fillBook(bench, wishes)
        const file = bench.book?.file
        if (o.json === true) printJson({ format: 'germane/book-fill/1', file, parts, seed: wishes.seed })
        else printLines([`${parts} invented parts are in ${file}.`])
      })
    })
}

function whole(option: string, text: string, least: number, most: number): number {
  const value = Number(text)
  if (/^\d+$/.test(text.trim()) && value >= least && value <= most) return value
  throw badOption(option, text, `is not a whole number from ${least} to ${most}`, `Write for example ${option} 1000.`)
}
