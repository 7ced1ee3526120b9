import { needle, type Range } from '#core/tester'
import { advise } from './advice.ts'
import type { Bench } from './bench.ts'
import { rangesOn, setRange } from './face.ts'
import { type Feed, fedBy, feedsOf, setFeed, shortA } from './feed.ts'
import { coolGroup, type Group } from './group.ts'
import { meterOhm } from './operating-point.ts'
import { rules } from './rule.ts'
import { say } from './say.ts'
import type { Step } from './sheet.ts'

/** What stands for a short, by family, where it is looked for with an ohmmeter. */
const pairsOf = (b: Bench): string => {
  if (b.kind === 'diode') return 'the two leads, both ways round'
  switch (b.partType?.family) {
    case 'jfet':
      return 'gate and source and gate and drain, both ways round (drain to source conducts by nature)'
    case 'mosfet':
      return 'gate and source and gate and drain, both ways round; keep the leads joined until then'
    case 'ujt':
      return 'emitter and each base, both ways round (base to base is a resistor by nature)'
    case 'scr':
    case 'triac':
      return 'the two main leads, both ways round (gate to its neighbour may read a few ohm by nature)'
    default:
      return 'each pair of leads, both ways round'
  }
}

/** Voltage a short check may put on the part, V. */
const ceilingV = (b: Bench): number => (b.kind === 'diode' ? b.ceiling.reverseV : b.ceiling.collectorV)

/** The tester's own short check, where it is gentle enough for this part. */
function ownCheck(b: Bench): Feed | undefined {
  const polarityFits = b.kind === 'diode' || b.polarity === undefined || b.tester.polarities.includes(b.polarity)
  if (b.kind === 'other' || !polarityFits) return undefined
  const feed = feedsOf(b.tester, 'short')[0]
  if (feed === undefined || feed.supplyV > ceilingV(b)) return undefined
  const drawn = shortA(feed, meterOhm(b, rangesOn(b.tester, feed).at(-1)))
  // A diode put in the wrong way round conducts: what flows then must be within its rating.
  if (b.kind === 'diode' && drawn > b.ceiling.currentA) return undefined
  return b.partType === undefined && drawn > rules.unknownShortA ? undefined : feed
}

/** What a short looks like: worked out where the resistances are known, and in the tester's own words. */
function shortText(b: Bench, feed: Feed, range: Range | undefined): string {
  const drawnA = shortA(feed, meterOhm(b, range))
  const shown =
    range === undefined || drawnA >= feed.maxA || range.measures !== 'current'
      ? undefined
      : needle(b.tester, range, drawnA)
  const seen =
    shown === undefined || shown.over || shown.scale === ''
      ? ''
      : ` (${say(shown.divisions, 'div')} on ${say(range!.fullScale, 'A')})`
  const own = (b.tester.shortLooksLike ?? 'The needle goes hard against its stop').trim().replace(/\.+$/, '')
  return seen === ''
    ? `A short looks like this: ${own}.`
    : `A short would draw ${say(drawnA, 'A')} here${seen}. ${own}.`
}

function ownSteps(b: Bench, feed: Feed): readonly Step[] {
  const coarsest = rangesOn(b.tester, feed).at(-1)
  return [
    ...setFeed('short', feed, 'The lowest voltage is enough to find a short.'),
    ...(coarsest === undefined
      ? []
      : [setRange('short-range', coarsest, 'A short draws all that the tester can give: the highest range bears it.')]),
    {
      kind: 'read',
      id: 'short',
      reads: 'short',
      point: 0,
      ...(coarsest === undefined ? {} : { range: coarsest.id }),
      ...fedBy(feed),
      currentA: shortA(feed, meterOhm(b, coarsest)),
      conditions: {},
      say: `${b.kind === 'diode' ? 'Put the diode in reversed, so that a good one blocks. ' : ''}Make the short check. ${shortText(b, feed, coarsest)}`,
      why: 'A shorted part can spoil movement, shunts and cells, and nothing read on it means anything.',
      odd: advise('pegged', 'wrongWay'),
    },
  ]
}

function ohmmeterSteps(b: Bench): readonly Step[] {
  return [
    {
      kind: 'read',
      id: 'short',
      reads: 'short',
      point: 0,
      conditions: {},
      say: `With an ohmmeter's middle range or a diode check, test ${pairsOf(b)}. Near 0 ohm both ways is a short.`,
      why: 'A short is looked for first. The lowest ohm range can pass 100 mA and the highest apply 9 V or more: use neither on small parts.',
      odd: advise('bothWays'),
    },
  ]
}

/** The short check, and the decision to stop after a short. It stands before everything else. */
export function shortGroup(b: Bench): Group {
  const feed = ownCheck(b)
  return coolGroup([
    ...(feed === undefined ? ohmmeterSteps(b) : ownSteps(b, feed)),
    {
      kind: 'decide',
      id: 'short-decide',
      after: 'short',
      stopWhen: 'short',
      say: 'If it shows a short, stop here: take the part out and mark it.',
      why: 'Nothing is read after a short.',
    },
  ])
}
