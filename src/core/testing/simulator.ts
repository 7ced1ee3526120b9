import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** ngspice is there, or the tests that need it are not: continuous integration installs it, and there they must run. */
export function hasSimulator(): boolean {
  try {
    execFileSync('ngspice', ['--version'], { stdio: 'ignore' })
    return true
  } catch {
    if (process.env.CI === 'true') throw new Error('ngspice is not installed')
    return false
  }
}

/** Tolerances at which ngspice's own error is far below what is asked. */
const tight = '.options reltol=1e-9 abstol=1e-18 vntol=1e-13 pivtol=1e-30 itl1=2000'

/**
 * Runs ngspice's operating point on a netlist and prints vectors, `i(v1)` and `v(c)`.
 *
 * @param netlist title, elements, models, `.temp` and `.options gmin`, without `.end`
 * @returns values by vector as asked; NaN where ngspice gave none
 */
export function simulated(
  netlist: string,
  vectors: readonly string[],
  options = tight,
): Readonly<Record<string, number>> {
  const folder = mkdtempSync(join(tmpdir(), 'germane-simulator-'))
  try {
    const file = join(folder, 'circuit.cir')
    const control = [
      '.control',
      'set numdgt=12',
      'op',
      ...vectors.map((v) => `print ${v}`),
      'quit 0',
      '.endc',
      '.end',
      '',
    ]
    writeFileSync(file, [netlist.trimEnd().replace(/\n\.end$/, ''), options, ...control].join('\n'))
    const out = execFileSync('ngspice', ['-b', file], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] })
    const found = new Map([...out.matchAll(/^(\S+) = (\S+)/gm)].map((m) => [m[1]!, Number(m[2])]))
    return Object.fromEntries(vectors.map((v) => [v, found.get(v.toLowerCase()) ?? Number.NaN]))
  } finally {
    rmSync(folder, { recursive: true })
  }
}
