import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { demo } from '#catalog'

const root = join(import.meta.dirname, '..')
const readme = readFileSync(join(root, 'README.md'), 'utf8')

/** Lines of the README that call the command, as they stand, in order; comments taken off. */
const calls = [...readme.matchAll(/```\n([\s\S]*?)```/g)]
  .flatMap((block) => block[1]!.split('\n'))
  .filter((line) => line.startsWith('npx germane'))
  .map((line) => line.replace(/\s+#.*$/, ''))

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'germane-readme-'))
  cpSync(join(root, 'examples'), join(folder, 'examples'), { recursive: true })
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Runs a line of the README in a folder of its own, with the built command in place of `npx germane`. */
function runLine(line: string) {
  const germane = `"${process.execPath}" "${join(root, 'bin/germane.mjs')}"`
  return spawnSync(line.replace('npx germane', germane), { cwd: folder, shell: true, encoding: 'utf8', input: 'q\n' })
}

describe('the README', () => {
  test('its example file is the lot of the demo', () =>
    expect(readFileSync(join(root, 'examples/orrin-point.csv'), 'utf8')).toBe(demo.readings))

  test('it has a first run', () => expect(calls.length).toBeGreaterThan(10))

  test.each(calls)('%s', (line) => {
    const ran = runLine(line)
    expect(ran.stderr).toBe('')
    if (!line.includes('>')) expect(ran.stdout).not.toBe('')
    expect(ran.status).toBe(line.includes(' judge ') ? 1 : 0)
  })

  test('what it says of the parts is what the command says', () => {
    const ran = runLine('npx germane judge examples/orrin-point.csv --tester larkfield --json')
    const { parts } = JSON.parse(ran.stdout) as { parts: { part: string; state: string; verdict: string }[] }
    const those = (word: string): string[] => parts.filter((p) => p.verdict === word).map((p) => p.part)
    expect(those('does not conform')).toEqual(['OP-4', 'OP-5', 'OP-11', 'OP-14'])
    expect(those('undecided')).toEqual(['OP-6'])
    expect(those('conforms')).toHaveLength(9)
    expect(parts.find((p) => p.part === 'OP-5')?.state).toBe('short')
  })
})
