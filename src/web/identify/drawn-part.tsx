import { likelyText } from '#core/identify'
import { useShortcut } from '#web/keys'
import type { LeadName } from './bench.ts'

interface Props {
  readonly count: 2 | 3
  /** Leads pressed: plus, then minus. */
  readonly chosen: readonly number[]
  readonly names: Readonly<Record<string, LeadName>>
  /** What it is, or a question mark. */
  readonly body: string
  readonly onPress: (lead: number) => void
}

/** A part without a name, its leads to be pressed: plus first, then minus. */
export function DrawnPart({ count, chosen, names, body, onPress }: Props) {
  const leads = Array.from({ length: count }, (_, k) => k + 1)
  return (
    <div className="identify-part">
      <svg viewBox="0 0 300 104" aria-hidden="true">
        <path className="identify-body" d="M22 103V44A38 38 0 0 1 60 6H240A38 38 0 0 1 278 44V103Z" />
        <path className="identify-flat" d="M34 92H266" />
        <text x="150" y="62" textAnchor="middle">
          {body}
        </text>
      </svg>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a grid in every browser */}
      <div className="identify-leads" data-count={count} role="group" aria-label="Leads of the part">
        {leads.map((lead) => (
          <Lead key={lead} lead={lead} chosen={chosen} name={names[lead]} onPress={onPress} />
        ))}
      </div>
    </div>
  )
}

interface LeadProps {
  readonly lead: number
  readonly chosen: readonly number[]
  readonly name: LeadName | undefined
  readonly onPress: (lead: number) => void
}

const ends = ['plus', 'minus'] as const

function Lead({ lead, chosen, name, onPress }: LeadProps) {
  useShortcut(
    { keys: String(lead), says: `Put the meter on lead ${lead}: plus first, then minus.`, group: 'Part' },
    () => onPress(lead),
  )
  const end = ends[chosen.indexOf(lead)]
  return (
    <button type="button" className="identify-lead" aria-pressed={end !== undefined} onClick={() => onPress(lead)}>
      <span className={`identify-clip ${end ?? ''}`}>
        {end !== undefined && <span aria-hidden="true">{end === 'plus' ? '+' : '−'}</span>}
      </span>
      <span>
        <span className="vh">Lead </span>
        {lead}
        {end !== undefined && <span className="vh">, {end}</span>}
      </span>
      <span className="identify-electrode">
        {name !== undefined && (
          <>
            <b>{name.name}</b> <span className="soft small">{likelyText(name.probability)}</span>
          </>
        )}
      </span>
    </button>
  )
}
