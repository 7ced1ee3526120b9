import type { Bench } from './bench.ts'
import { rules } from './rule.ts'
import type { Caution, Step } from './sheet.ts'

/** Cautions a sheet may carry: hazard, caution and the standard it follows. No legal advice. */
export const cautions = {
  hazardousVoltage: {
    hazard: 'breakdown and leakage supplies',
    caution:
      'Treat any test supply above 60 V DC (42.4 V peak AC) as hazardous; limit to a few mA by series resistance at the source, bleed it, one hand, switch off and discharge before changing the part. IEC 61010-1 normal-condition limits: 60 V DC, 30 V rms; current 2 mA DC.',
    source: 'IEC 61010-1, IEC 60479 (from memory)',
  },
  localRules: {
    hazard: 'hazardous voltage and your local rules',
    caution:
      'Where local codes or licensed practice say more than this sheet, they count. If you are not sure, leave the test out.',
    source: 'common practice',
  },
  shortedCells: {
    hazard: 'cells at short circuit',
    caution:
      'Alkaline D/AA deliver 5-10 A and more into a short, NiCd/NiMH/Li-ion tens of amperes: fuse or resistor at the cell; never use bare lithium cells as a test source.',
    source: 'common practice',
  },
  leakingCells: {
    hazard: 'leaking cells',
    caution: 'Alkaline leakage is caustic potash: gloves, neutralise with weak vinegar, eye protection.',
    source: 'common practice',
  },
  hotParts: {
    hazard: 'hot parts',
    caution: 'A TO-3 at rated power burns skin: Ge must stay below 75-90 degC, Si can reach 150 degC case.',
    source: 'common practice',
  },
  burstingParts: {
    hazard: 'parts that can burst',
    caution:
      'Never exceed ratings on glass types; wear glasses when testing breakdown of old power and tantalum parts.',
    source: 'common practice',
  },
  staticCharge: {
    hazard: 'ESD for MOS',
    caution:
      'MOSFET gates (VGSS 10-30 V) and dual-gate RF FETs puncture by touch: wrist strap, shorting ring or foil on until wired, connect S first and G last, never test gate breakdown.',
    source: 'JESD625, IEC 61340-5-1 (from memory)',
  },
} as const satisfies Readonly<Record<string, Caution>>

/** Power from which a part gets hot to the touch, W (common practice). */
const hotW = 1

/** Cautions that apply to a sheet's steps. */
export function cautionsOf(b: Bench, steps: readonly Step[]): readonly Caution[] {
  const reads = steps.filter((s) => s.kind === 'read')
  const outside = b.tester.supplies.some(
    (s) => s.kind === 'external' && Math.max(s.max ?? 0, ...s.taps) > rules.hazardousV,
  )
  const isHazardous = outside || reads.some((s) => (s.supplyV ?? 0) > rules.hazardousV)
  const isHot = reads.some((s) => s.reads !== 'short' && (s.supplyV ?? 0) * (s.currentA ?? 0) > hotW)
  const isGlass = /glass|SO-2|DO-7|DO-35/i.test(b.partType?.outline ?? (b.kind === 'diode' ? 'glass' : ''))
  return [
    ...(isHazardous ? [cautions.hazardousVoltage, cautions.localRules] : []),
    ...(b.tester.supplies.some((s) => s.kind === 'cells') ? [cautions.shortedCells] : []),
    ...(isHot || b.isPower ? [cautions.hotParts] : []),
    ...(isGlass ? [cautions.burstingParts] : []),
    ...(b.partType?.family === 'mosfet' ? [cautions.staticCharge] : []),
  ]
}
