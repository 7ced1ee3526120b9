import { createInterface } from 'node:readline'
import type { Readable, Writable } from 'node:stream'

/** Prompts, and gives the line that is typed; undefined when there are no more. */
export type Ask = (prompt: string) => Promise<string | undefined>

/** Lines as they are typed, also those that came before they were asked for. Ctrl-C ends them. */
export function typedLines(from: Readable, talk: Writable): { readonly ask: Ask; readonly end: () => void } {
  const waiting: string[] = []
  let wanted: ((line: string | undefined) => void) | undefined
  let isClosed = false
  const input = createInterface({ input: from, output: talk, terminal: isTerminal(from) && isTerminal(talk) })
  input.on('SIGINT', () => input.close())
  input.on('line', (line) => {
    if (wanted === undefined) return void waiting.push(line)
    wanted(line)
    wanted = undefined
  })
  input.on('close', () => {
    isClosed = true
    wanted?.(undefined)
  })
  const ask: Ask = (prompt) => {
    const start = prompt.lastIndexOf('\n') + 1
    talk.write(isClosed ? prompt : prompt.slice(0, start))
    if (!isClosed) {
      input.setPrompt(prompt.slice(start))
      input.prompt()
    }
    const line = waiting.shift()
    if (line !== undefined || isClosed) return Promise.resolve(line)
    return new Promise((resolve) => {
      wanted = resolve
    })
  }
  return { ask, end: () => input.close() }
}

const isTerminal = (stream: Readable | Writable): boolean => 'isTTY' in stream && stream.isTTY === true
