import { useQuery } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import { needType, type PartType } from '#core/device'
import { Field } from '#web/field'
import { api, queryClient, queryKeys, sayDone } from '#web/live'

interface Props {
  readonly tag: string
  readonly types: readonly PartType[]
  /** Types that are offered. */
  readonly words: readonly string[]
}

/** A part of no known type cannot be computed anywhere: its type is said here, and kept in the book. */
export function GiveType({ tag, types, words }: Props) {
  const { data } = useQuery({ queryKey: queryKeys.part(tag), queryFn: () => api.part(tag), retry: false })
  const [type, setType] = useState('')
  const [fault, setFault] = useState<string>()
  if (data === undefined || data.part.type !== undefined) return null
  const keep = async (): Promise<void> => {
    try {
      const { partType } = needType(types, type)
      const { edit } = await api.changeParts([tag], { type: partType.type })
      await queryClient.invalidateQueries({ queryKey: queryKeys.drawer })
      await queryClient.invalidateQueries({ queryKey: queryKeys.part(tag) })
      sayDone({ say: `${tag} has the type ${partType.type} now.`, ...(edit === undefined ? {} : { edit }) })
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error))
    }
  }
  const onSubmit = (e: FormEvent): void => {
    e.preventDefault()
    if (type.trim() !== '') void keep()
  }
  return (
    <form className="stage-give" onSubmit={onSubmit}>
      <Field
        label={`Type of ${tag}`}
        value={type}
        example="BC557"
        words={words}
        fault={fault}
        onText={(text) => {
          setFault(undefined)
          setType(text)
        }}
      />
      <button type="submit" className="button" disabled={type.trim() === ''}>
        Keep it as its type
      </button>
    </form>
  )
}
