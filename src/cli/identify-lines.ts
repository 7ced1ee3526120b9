import { type IdentifiedAs, likelyText, type Marking, ruledOutSentences } from '#core/identify'
import type { IdentifiedPart } from './identify.ts'
import { block } from './say.ts'
import { tableLines, wrapped } from './table.ts'

/** Answers of which so many are shown to people. */
const mostAnswers = 5

/** The leads as they lie, each with its electrode under it. */
export function leadDrawing(leads: IdentifiedAs['leads']): readonly string[] {
  const all = Object.entries(leads)
  const width = Math.max(...all.map(([lead, name]) => Math.max(lead.length, name.length)))
  const line = (cells: readonly string[]): string => `    ${cells.map((c) => c.padEnd(width)).join('   ')}`.trimEnd()
  return [line(all.map(([lead]) => lead)), line(all.map(() => '|')), line(all.map(([, name]) => name))]
}

const leadsText = (leads: IdentifiedAs['leads']): string =>
  Object.entries(leads)
    .map(([lead, name]) => `${lead} ${name}`)
    .join(', ')

const sentences = (all: readonly string[]): readonly string[] => all.flatMap((s) => wrapped(s, '  '))

/** What a part is, with the why and the next test, for people. */
export function identityLines(p: IdentifiedPart): readonly string[] {
  const [best] = p.hypotheses
  const isStrange = p.contradiction !== undefined || best === undefined
  const head = isStrange ? [`${p.part}: none of the parts known here.`] : bestLines(p.part, best)
  const rows = p.hypotheses.slice(0, mostAnswers).map((h) => [likelyText(h.probability), h.text, leadsText(h.leads)])
  return [
    ...head,
    ...(p.contradiction === undefined ? [] : wrapped(p.contradiction, '  ')),
    ...block('What it may be:', tableLines(['>sure', 'part', 'leads'], rows)),
    ...block('Why:', sentences(p.evidence)),
    ...block('Ruled out:', sentences(ruledOutSentences(p.ruledOut))),
    ...block('Cannot be told apart by these readings:', sentences(p.cannotTell)),
    ...nextLines(p),
    ...candidateLines(p),
    ...planLines(p),
    '',
  ]
}

const bestLines = (part: string, best: IdentifiedAs): readonly string[] => [
  `${part}: ${best.text}, ${likelyText(best.probability)} sure.`,
  ...leadDrawing(best.leads),
]

function nextLines({ next, hypotheses, contradiction }: IdentifiedPart): readonly string[] {
  if (contradiction !== undefined) return []
  if (next !== undefined) {
    const rows = next.expected.map((e) => [e.shows, e.what])
    return [
      ...block('Next:', sentences([next.say, ...(next.caution === undefined ? [] : [next.caution])])),
      ...tableLines(
        ['  expect', 'if it is'],
        rows.map(([a, b]) => [`  ${a}`, b!]),
      ),
    ]
  }
  const isSure = (hypotheses[0]?.probability ?? 0) > 0.9
  return isSure ? [] : block('Next:', ['  No other test between two leads tells more.'])
}

/** Part types that it may be, and how to go on measuring it. */
function candidateLines({ candidates, contradiction }: IdentifiedPart): readonly string[] {
  if (candidates === undefined || contradiction !== undefined) return []
  const { say, prior, marking } = candidates
  const rows = candidates.types.map((t) => [`  ${likelyText(t.share)}`, t.type, t.because.join(', ')])
  return [
    ...(marking === undefined ? [] : block(`Marked ${marking.text}:`, markingLines(marking))),
    ...block('Types it may be:', sentences([say, ...(prior === undefined ? [] : [prior])])),
    ...(rows.length === 0 ? [] : tableLines(['  share', 'type', 'because'], rows)),
  ]
}

const markingLines = ({ says, against }: Marking): readonly string[] =>
  sentences([...(against === undefined ? [] : [against]), ...says])

/** How to go on to a run sheet, for a part that can have one. */
const planLines = ({ plan }: IdentifiedPart): readonly string[] =>
  plan === undefined
    ? []
    : block(
        'To measure it:',
        plan.map((command) => `  ${command}`),
      )
