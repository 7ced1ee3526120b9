import { PassThrough } from 'node:stream'
import { describe, expect, test } from 'vitest'
import { typedLines } from './typed-lines.ts'

/** Two ends of a terminal: what is typed into it, and what it shows. */
function terminal(isTTY: boolean) {
  const keys = Object.assign(new PassThrough(), { isTTY })
  const screen = Object.assign(new PassThrough(), { isTTY, columns: 80 })
  let shown = ''
  screen.on('data', (text: Buffer) => {
    shown += String(text)
  })
  return { keys, screen, shown: () => shown }
}

describe('in a terminal', () => {
  test('what is typed is shown, can be mended, and leaves the prompt standing', async () => {
    const { keys, screen, shown } = terminal(true)
    const { ask, end } = typedLines(keys, screen)
    const line = ask('\n  short = ')
    keys.write('cleax\x7fr\r')
    expect(await line).toBe('clear')
    end()
    expect(shown()).toContain('cleax')
    expect(shown()).toMatch(/\n.* {2}short = .*clea.*r/s)
  })

  test('Ctrl-C is the end of what is typed', async () => {
    const { keys, screen } = terminal(true)
    const { ask } = typedLines(keys, screen)
    const line = ask('  I_C = ')
    keys.write('12 m\x03')
    expect(await line).toBeUndefined()
    expect(await ask('  I_C = ')).toBeUndefined()
  })
})

describe('from a pipe', () => {
  test('lines that come before they are asked for wait, and the end is told', async () => {
    const { keys, screen, shown } = terminal(false)
    const { ask } = typedLines(keys, screen)
    keys.end('one\ntwo\n\nthree')
    await new Promise((keep) => setImmediate(keep))
    const said = [await ask('a '), await ask('b '), await ask('c '), await ask('d '), await ask('e ')]
    expect(said).toEqual(['one', 'two', '', 'three', undefined])
    expect(shown()).toBe('a b c d e ')
  })
})
