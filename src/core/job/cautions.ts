import { type Caution, cautions } from '#core/sheet'
import type { Power } from './job.ts'

/**
 * What to mind with equipment that is opened. No legal advice: where local codes or licensed practice say more, they
 * count.
 */
const opened = {
  mains: {
    hazard: 'mains-operated equipment',
    caution:
      'Unplug it before you lift a part. The chassis of many sets is live: never take it for dead. Work behind an isolating transformer with a residual-current device before it, one hand at a time.',
    source: 'common practice (from memory)',
  },
  capacitors: {
    hazard: 'charged capacitors',
    caution:
      'Reservoir and flash capacitors hold a charge that can kill. Discharge them through 100 ohm to 1 kohm of several watts, measure, and leave them shorted: some of the voltage comes back by itself.',
    source: 'common practice (from memory)',
  },
  insulation: {
    hazard: 'old insulation',
    caution:
      'Rubber and cloth insulation goes brittle and falls off when it is bent: look along every lead before you switch on. Heat shields and boards near hot resistors may be asbestos: do not drill, tear or brush them; wet, bag and hand them in as your place asks.',
    source: 'common practice',
  },
  ceramics: {
    hazard: 'toxic ceramic RF parts',
    caution:
      'RF power transistors, hybrids and some insulators hold beryllium oxide, often a white or pink base. Never open, file, grind or break one: the dust destroys lungs. Pack it whole and hand it in as hazardous waste.',
    source: 'common practice; some makers say so on the data sheet',
  },
  selenium: {
    hazard: 'selenium rectifiers',
    caution:
      'An overheated stack smells rotten and gives off poison: switch off, air the room, do not breathe it. Silicon with a series resistor may take its place.',
    source: 'common practice (from memory)',
  },
  local: {
    hazard: 'your local rules',
    caution:
      'Where local codes or licensed practice say more than this, they count. If you are not used to mains and high voltage, leave it to somebody who is.',
    source: 'common practice',
  },
} as const satisfies Readonly<Record<string, Caution>>

/**
 * Cautions that go with a piece of equipment. Where nobody has said what it runs from, it is taken to be the mains.
 *
 * @example openedCautions('battery').map((c) => c.hazard)
 */
export const openedCautions = (power: Power | undefined): readonly Caution[] =>
  power === 'battery'
    ? [cautions.leakingCells, opened.capacitors, opened.insulation, opened.ceramics, opened.local]
    : [opened.mains, opened.capacitors, opened.insulation, opened.ceramics, opened.selenium, opened.local]
