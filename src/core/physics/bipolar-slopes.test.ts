import { expect, test } from 'vitest'
import { expectRelative } from '#core/testing'
import { type BipolarModel, bipolarAt, bipolarOut } from './bipolar.ts'
import { type BipolarDrive, innerStart, settleBipolar } from './bipolar-point.ts'
import { bipolarSlopeOrder, writeBipolarSlopes } from './bipolar-slopes.ts'
import { kelvin } from './thermal-voltage.ts'

const card = { is: 6e-15, bf: 180, ise: 4e-14, ne: 1.6, ikf: 0.08, vaf: 70, re: 0.6, rb: 90, rc: 2, tnom: 25 }

const drives: readonly BipolarDrive[] = [
  { vbe: 0.4, vce: 5 },
  { vbe: 0.85, vce: 5 },
  { vbe: 0.75, vce: 0.2 },
  { vbe: 0.6, vce: 0.6 },
  { ib: 1e-5, vce: 0.1 },
  { ib: 1e-4, vce: 10 },
]

function currents(m: BipolarModel, drive: BipolarDrive): readonly [ic: number, ib: number] {
  const out = bipolarOut()
  const inner = { vbe: 0, vbc: 0 }
  innerStart(m, drive, inner)
  expect(settleBipolar(m, drive, inner, out)).toBe(true)
  return [out.ic, out.ib]
}

// central differences of the same law, error of the order of the square of the step: M. Abramowitz, I. Stegun,
// Handbook of Mathematical Functions (1964), 25.3.21
test.each(drives)('slopes at %o are those of differences', (drive) => {
  const m = bipolarAt(card, kelvin(25))
  const out = bipolarOut()
  const inner = { vbe: 0, vbc: 0 }
  innerStart(m, drive, inner)
  settleBipolar(m, drive, inner, out)
  const slopes = { ic: new Float64Array(10), ib: new Float64Array(10) }
  writeBipolarSlopes(m, drive, inner, out, slopes)
  for (const [j, name] of bipolarSlopeOrder.entries()) {
    const step = 1e-4 * m[name]
    const moved = (by: number): readonly [number, number] => {
      const other = { ...m, [name]: m[name] + by }
      return currents(name === 'rb' ? { ...other, rbm: other.rb } : other, drive)
    }
    const [up, down] = [moved(step), moved(-step)]
    const size = Math.abs(out.ic / m[name])
    expectNear(slopes.ic[j]!, (up[0] - down[0]) / (2 * step), size, `I_C by ${name}`)
    expectNear(slopes.ib[j]!, (up[1] - down[1]) / (2 * step), Math.abs(out.ib / m[name]), `I_B by ${name}`)
  }
})

/** To 1e-5 of the slope, or where it all but vanishes to 1e-9 of current over parameter. */
function expectNear(got: number, want: number, size: number, what: string): void {
  if (Math.abs(want) < 1e-4 * size) expect(Math.abs(got - want), what).toBeLessThan(1e-9 * size)
  else expectRelative(got, want, 1e-5, what)
}
