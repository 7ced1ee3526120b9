import { readYaml } from '#core/text'
import { printJson } from './output.ts'

/** How an example is written: only JSON and YAML have a JSON form that reads back. */
export type ExampleForm = 'csv' | 'json' | 'yaml' | 'text'

/** What `--example` is asked with. */
export interface ExampleOptions {
  readonly json?: boolean
}

/**
 * Prints an example as its file would be. With `--json` it is one document: the file in its JSON form where it has one,
 * which the verb reads as well, else `germane/example/1` with the text of the file in it.
 */
export function writeExample(text: string, form: ExampleForm, { json }: ExampleOptions): void {
  if (json !== true || form === 'json') return void process.stdout.write(text)
  const read = form === 'yaml' ? readYaml(text) : undefined
  printJson(read?.ok === true ? read.document.data : { format: 'germane/example/1', form, text })
}
