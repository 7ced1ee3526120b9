import { useNavigate } from '@tanstack/react-router'
import { type FormEvent, useRef, useState } from 'react'
import { Field } from '#web/field'
import { api } from '#web/live'
import { kept, useTried } from './edits.ts'

/** One line for the next position; Enter adds it and waits for another. */
export function AddPosition({ job, name }: { readonly job: number; readonly name: string }) {
  const [ref, setRef] = useState('')
  const [type, setType] = useState('')
  const { fault, tried } = useTried()
  const navigate = useNavigate()
  const first = useRef<HTMLInputElement>(null)
  const add = async (): Promise<void> => {
    const wanted = type.trim() === '' ? {} : { type: type.trim() }
    await kept(api.addPosition(job, { ref: ref.trim(), ...wanted }), `${ref.trim()} added to ${name}.`)
    setRef('')
    first.current?.focus()
    await navigate({ to: '.', search: { ref: ref.trim() }, replace: true, resetScroll: false })
  }
  const send = (e: FormEvent): void => {
    e.preventDefault()
    if (ref.trim() !== '') tried(add)
  }
  return (
    <form className="job-add" onSubmit={send}>
      <Field label="Add a position" inputRef={first} example="TR1" value={ref} longest={40} onText={setRef} />
      <Field label="Type wanted there" example="OC71" value={type} onText={setType} />
      <button type="submit" className="button" disabled={ref.trim() === ''}>
        Add
      </button>
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </form>
  )
}
