import type { Bench } from './bench.ts'
import { coolGroup, type Group } from './group.ts'
import { rules } from './rule.ts'
import type { Step } from './sheet.ts'

/** Polarity of the tester: the part's own, or both tried for an unknown part. */
function polaritySteps(b: Bench): readonly Step[] {
  if (b.kind !== 'transistor') return []
  const tried = b.polarity ?? (b.tester.polarities.includes('PNP') ? 'PNP' : 'NPN')
  const isGuess = b.polarity === undefined
  return [
    {
      kind: 'set',
      id: 'polarity',
      what: 'polarity',
      value: tried,
      say: isGuess
        ? `Set the polarity switch to ${tried} first. If the needle goes the wrong way or nothing amplifies, switch off and go through the sheet again at the other.`
        : `Set the polarity switch to ${tried}.`,
      why: isGuess
        ? 'Old germanium parts are mostly PNP; with so little voltage and current the wrong one does little harm.'
        : 'The wrong polarity reverses the emitter junction, which stands the least.',
    },
  ]
}

function leadSteps(b: Bench): readonly Step[] {
  const leads = b.partType?.leads
  const isKnown = leads !== undefined && !/verify/i.test(leads.order)
  const own = isKnown
    ? `Put the part in: leads ${leads.order}, seen: ${leads.view}.`
    : b.kind === 'diode'
      ? 'Find the cathode, mostly the end with the band, with a diode check before you put the part in.'
      : 'Find the leads with an ohmmeter or diode check before you put the part in.'
  return [
    {
      kind: 'set',
      id: 'leads',
      what: 'leads',
      value: isKnown ? leads.order : 'find out',
      say: own,
      why: isKnown
        ? `Some makers sold the same type with reversed leads: strange results are a reason to suspect it.${leads.variants === undefined ? '' : ` Known: ${leads.variants}.`}`
        : 'The lead order is not known. A wrong one reverses a junction.',
    },
  ]
}

/** The room: germanium leaks twice as much each ten kelvin. */
export function settleGroup(b: Bench): Group {
  const isGermanium = b.material === undefined || b.material === 'Ge'
  const seconds = isGermanium ? rules.settleS : rules.settleS / 4
  return coolGroup([
    {
      kind: 'wait',
      id: 'settle',
      seconds,
      say: `Wait ${seconds} s with fingers off the part, and read the thermometer.`,
      why: isGermanium
        ? 'Leakage doubles with each 10 K or less: a part warm from your fingers reads far too high.'
        : 'The part should have the temperature of the room that is noted with it.',
    },
  ])
}

export const endGroup = coolGroup([
  {
    kind: 'set',
    id: 'end',
    what: 'supply',
    value: 'off',
    say: 'Bring the bias to zero, switch the supply off, then take the part out.',
    why: 'A part pulled out under power can be hurt by the spark and the movement by the jolt.',
  },
])

/** Putting the part in. */
export const startGroup = (b: Bench): Group => coolGroup([...leadSteps(b), ...polaritySteps(b)])
