import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  type Circuit,
  type Compiled,
  compileCircuit,
  operatingPoint,
  readNetlist,
  setCard,
  setTemperature,
  setValue,
  solve,
  solveMany,
} from '#core/circuit'
import { median, Random } from '#core/numeric'
import { kelvin, voltsPerKelvin2014 } from '#core/physics'

/** Times of a stage's operating point. */
export interface SolvingFigure {
  readonly what: string
  /** From the text of the netlist to the point, s. */
  readonly ours: number
  /** ngspice's whole process on the same netlist, s; left out where it is not on the machine. */
  readonly ngspice?: number
  /** Points in a second of one core's time in a batch of variations, and how many of them were found. */
  readonly perSecond: number
  readonly solved: number
}

export const variations = 10_000

/** Invented stages: one germanium transistor with a divider, and two silicon ones coupled directly. */
const stages: readonly { readonly what: string; readonly netlist: string; readonly node: string }[] = [
  {
    what: 'a germanium stage of one transistor',
    node: 'c',
    netlist: `one transistor
VB neg 0 -9
R1 neg b 39k
R2 b 0 6.8k
RC neg c 3.3k
RE e 0 1k
RL c b 5meg
Q1 c b e orrin
.model orrin PNP(IS=2u BF=80 NF=1.01 VAF=40 IKF=50m ISE=90n NE=1.7 BR=12 ISC=2u NC=1.4
+ RB=120 RE=0.6 RC=2.5 XTB=0.6 XTI=3 EG=0.67 TNOM=25)
.temp 25
.options gmin=1e-15
`,
  },
  {
    what: 'a silicon pair, coupled directly',
    node: 'out',
    netlist: `direct-coupled pair
VCC p 0 18
RC1 p c1 100k
R1 b1 e2 68k
RE1 e1 0 220
RC2 p out 5.6k
RE2 e2 0 1.2k
Q1 c1 b1 e1 sel
Q2 out c1 e2 sel
.model sel NPN(IS=2e-14 BF=320 VAF=75 IKF=0.08 ISE=1e-14 NE=1.5 BR=5 ISC=2e-13 NC=1.6
+ RB=60 RE=0.4 RC=0.9 XTB=1.5 EG=1.11 XTI=3 TNOM=27)
.temp 25
.options gmin=1e-15
`,
  },
]

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

/** Figures of one run: medians, after runs that do not count. */
export function solving(): readonly SolvingFigure[] {
  return stages.map(({ what, netlist, node }) => {
    const point = operatingPoint(readNetlist(netlist), { setting })
    const whole = (): void => {
      if (!operatingPoint(readNetlist(netlist), { setting }).converged) throw new Error(`${what} was not solved`)
    }
    const ours = median(timed(2000, whole).slice(1000))
    const peer = simulator(netlist, node)
    const volts = point.nodeVoltages[node]!
    if (peer !== undefined && !(Math.abs(peer.volts / volts - 1) < 1e-4))
      throw new Error(`${what}: ${volts} V, ngspice ${peer.volts} V`)
    const batches = Array.from({ length: 6 }, (_, k) => batch(readNetlist(netlist), node, k)).slice(1)
    return {
      what,
      ours,
      ...(peer === undefined ? {} : { ngspice: peer.seconds }),
      perSecond: median(batches.map((b) => b.perSecond)),
      solved: Math.min(...batches.map((b) => b.solved)),
    }
  })
}

function timed(count: number, use: () => void): readonly number[] {
  return Array.from({ length: count }, () => {
    const began = performance.now()
    use()
    return (performance.now() - began) / 1000
  })
}

/** Every resistor within 5 %, gain and saturation current of every transistor, and the temperature from -10 to 60 degC. */
function variationsOf(circuit: Circuit, seed: number): (c: Compiled, k: number) => void {
  const chance = new Random(seed, 'variations')
  const resistors = circuit.components.flatMap((p) => (p.kind === 'R' ? [p] : []))
  const parts = circuit.components.flatMap((p) => ('device' in p ? [p] : []))
  const width = resistors.length + 2 * parts.length + 1
  const dice = Float64Array.from({ length: width * variations }, () => 2 * chance.uniform() - 1)
  return (c, k) => {
    let at = width * k
    for (const r of resistors) setValue(c, r.ref, r.value * (1 + 0.05 * dice[at++]!))
    for (const p of parts) {
      const card = circuit.devices[p.device]!.card as { readonly bf: number; readonly is: number }
      setCard(c, p.ref, { bf: card.bf * 2 ** dice[at++]!, is: card.is * 4 ** dice[at++]! })
    }
    setTemperature(c, kelvin(25 + 35 * dice[at]!))
  }
}

/** A batch of variations, some of them held against solutions from nothing. */
function batch(circuit: Circuit, node: string, seed: number): { readonly perSecond: number; readonly solved: number } {
  const vary = variationsOf(circuit, seed)
  const found = new Float64Array(variations)
  const row = compileCircuit(circuit).nodeRow.get(node)!
  const began = process.cpuUsage()
  const outcome = solveMany(
    circuit,
    variations,
    vary,
    (c, k) => {
      found[k] = c.x[row]!
    },
    { setting },
  )
  const spent = process.cpuUsage(began)
  const seconds = (spent.user + spent.system) / 1e6
  for (let k = 0; k < variations; k += 997) {
    const alone = compileCircuit(circuit, { setting })
    vary(alone, k)
    if (!solve(alone).converged || !(Math.abs(alone.x[row]! - found[k]!) < 1e-6))
      throw new Error(`variation ${k}: ${found[k]} V in the batch, ${alone.x[row]} V alone`)
  }
  return { perSecond: variations / seconds, solved: outcome.solved }
}

function simulator(netlist: string, node: string): { readonly seconds: number; readonly volts: number } | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'germane-circuit-'))
  try {
    const file = join(folder, 'stage.cir')
    const control = ['.control', 'set numdgt=9', 'op', `print v(${node})`, 'quit 0', '.endc', '.end', '']
    writeFileSync(file, netlist + control.join('\n'))
    const seconds: number[] = []
    let volts = Number.NaN
    for (let k = 0; k < 12; k++) {
      const began = performance.now()
      const ran = spawnSync('ngspice', ['-b', file], { encoding: 'utf8' })
      seconds.push((performance.now() - began) / 1000)
      if (ran.error !== undefined || ran.status !== 0) return undefined
      volts = Number(/^v\(\w+\) = (\S+)/m.exec(ran.stdout)?.[1])
    }
    return { seconds: median(seconds.slice(1)), volts }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
