import { type Fault, FaultError } from '#core/fault'
import type { ReadOptions } from '#core/text'
import { type NamedDevice, readModelCard } from './model-card.ts'
import { logicalLines } from './netlist-line.ts'

/**
 * Reads a file of `.model` cards and nothing else, as `germane fit --card` writes it.
 *
 * @returns the devices in their order, names in small letters
 * @throws {FaultError} every line that is no card, and every fault of the cards, by line
 * @example readModelCards('.model ge PNP(IS=1u BF=80)')[0].name // 'ge'
 */
export function readModelCards(text: string, options: ReadOptions = {}): readonly NamedDevice[] {
  const faults: Fault[] = []
  const found: NamedDevice[] = []
  const place = (line?: number) => ({
    ...(options.file === undefined ? {} : { file: options.file }),
    ...(line === undefined ? {} : { line }),
  })
  // cards have no title line above them
  for (const line of logicalLines(text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/))) {
    const at = place(line.number - 1)
    const read = readModelCard(line.text, at)
    if (!('device' in read)) faults.push(...read)
    else if (found.some((f) => f.name === read.name))
      faults.push({
        code: 'bad-input',
        place: at,
        value: read.name,
        problem: 'stands for two models',
        mend: 'Rename one.',
      })
    else found.push(read)
  }
  const mend = 'Write it as .model NAME NPN(IS=1e-14 BF=200).'
  if (found.length + faults.length === 0)
    faults.push({
      code: 'bad-input',
      place: place(),
      value: text.slice(0, 40).trim(),
      problem: 'holds no model card',
      mend,
    })
  if (faults.length > 0) throw new FaultError(faults)
  return found
}
