import { type IdentifiedAs, type Identity, likelyText } from '#core/identify'

/** Most answers shown. */
const most = 6

const leadsText = (leads: IdentifiedAs['leads']): string =>
  Object.entries(leads)
    .map(([lead, name]) => `${lead} ${name}`)
    .join(', ')

/** What the part may be, likeliest first. */
export function Ranking({ identity }: { readonly identity: Identity }) {
  const { hypotheses, somethingElse, contradiction } = identity
  const [best] = hypotheses
  const isStrange = contradiction !== undefined || best === undefined
  return (
    <>
      <p className="identify-best" role="status">
        {isStrange ? 'None of the parts known here' : best.text}
        {!isStrange && <span className="soft"> {likelyText(best.probability)} sure</span>}
      </p>
      {contradiction !== undefined && <p className="said bad">{contradiction}</p>}
      <ol className="identify-ranking" aria-label="What it may be, likeliest first">
        {hypotheses.slice(0, most).map((h) => (
          <Row key={`${h.text} ${leadsText(h.leads)}`} what={h.text} leads={leadsText(h.leads)} p={h.probability} />
        ))}
        <Row what="something else, or a wrong reading" leads="" p={somethingElse} />
      </ol>
    </>
  )
}

interface RowProps {
  readonly what: string
  readonly leads: string
  readonly p: number
}

function Row({ what, leads, p }: RowProps) {
  return (
    <li>
      <span className="identify-share">{likelyText(p)}</span>
      <span className="identify-bar" aria-hidden="true">
        <span style={{ width: `${100 * p}%` }} />
      </span>
      <span>
        {what}
        {leads !== '' && <span className="soft"> {leads}</span>}
      </span>
    </li>
  )
}
