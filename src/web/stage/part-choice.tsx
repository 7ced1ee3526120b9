import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import type { PartType } from '#core/device'
import type { TemplatePlace } from '#core/stage'
import { Field } from '#web/field'
import { api } from '#web/live'
import { GiveType } from './give-type.tsx'
import type { Look } from './question.ts'

interface Props {
  readonly look: Look
  readonly kind: TemplatePlace['kind']
  /** What the position itself names, for people. */
  readonly named: string
  readonly types: readonly PartType[]
  /** Tags that are offered before one types. */
  readonly tags: readonly string[]
  /** The part of the drawer that was named cannot be looked at. */
  readonly isLeftOut: boolean
  readonly onLook: (look: Look) => void
}

/** Which part is looked at in the place: the one it was made for, another type, or one from the drawer. */
export function PartChoice({ look, kind, named, types, tags, isLeftOut, onLook }: Props) {
  const words = useMemo(
    () => types.filter((t) => t.family === (kind === 'Q' ? 'bjt' : 'diode')).map((t) => t.type),
    [types, kind],
  )
  return (
    <div className="stage-part">
      <fieldset className="choice">
        <legend className="field-label">Look at it with</legend>
        <Way
          by="position"
          look={look}
          onLook={() => onLook({ by: 'position' })}
          says={named === '' ? 'the part it names' : named}
        />
        <Way by="type" look={look} onLook={() => onLook({ by: 'type', type: '' })} says="another type" />
        <Way by="part" look={look} onLook={() => onLook({ by: 'part', tag: '' })} says="a part of the drawer" />
      </fieldset>
      {look.by === 'type' && (
        <Field
          label="Part type"
          value={look.type}
          example="BC557"
          words={words}
          onText={(type) => onLook({ by: 'type', type })}
        />
      )}
      {look.by === 'part' && <TagField tag={look.tag} tags={tags} onTag={(tag) => onLook({ by: 'part', tag })} />}
      {look.by === 'part' && isLeftOut && (
        <GiveType key={look.tag.trim()} tag={look.tag.trim()} types={types} words={words} />
      )}
    </div>
  )
}

interface WayProps {
  readonly by: Look['by']
  readonly look: Look
  readonly says: string
  readonly onLook: () => void
}

const Way = ({ by, look, says, onLook }: WayProps) => (
  <label>
    <input type="radio" name="look" checked={look.by === by} onChange={onLook} />
    {says}
  </label>
)

interface TagProps {
  readonly tag: string
  readonly tags: readonly string[]
  readonly onTag: (tag: string) => void
}

/** A tag with suggestions from the book. */
function TagField({ tag, tags, onTag }: TagProps) {
  const q = tag.trim()
  const { data } = useQuery({
    queryKey: ['search', 'tags', q],
    queryFn: () => api.search(q, 40),
    enabled: q !== '',
    staleTime: 10_000,
  })
  const words = data?.hits.filter((h) => h.kind === 'part').map((h) => h.name) ?? tags
  return <Field label="Tag of the part" value={tag} example="OP-4" words={words} onText={onTag} />
}
