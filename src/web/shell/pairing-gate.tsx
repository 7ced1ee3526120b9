import { Button, TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { type FormEvent, type ReactNode, useEffect, useState } from 'react'
import { api, listenToBook, queryClient } from '#web/live'
import { useAhead } from './ahead.ts'
import { Trouble } from './states.tsx'

interface Props {
  readonly children: ReactNode
}

/** This computer itself is never asked for a code, so its page need not wait to hear that. */
const isHere = /^(localhost|127\.[\d.]+|\[::1\])$/.test(window.location.hostname)

/** On a server that is open to the local network, asks for the code it printed before it shows or asks for anything. */
export function PairingGate({ children }: Props) {
  const { data, error } = useQuery({ queryKey: ['pairing'], queryFn: () => api.pairing(), enabled: !isHere })
  const isOpen = isHere || (data !== undefined && (!data.isNeeded || data.isPaired))
  useAhead(isOpen)
  useEffect(() => (isOpen ? listenToBook() : undefined), [isOpen])
  if (isOpen) return children
  if (data !== undefined) return <PairingForm />
  return error === null ? null : <Trouble error={error} reset={() => void queryClient.resetQueries()} />
}

function PairingForm() {
  const [code, setCode] = useState('')
  const [trouble, setTrouble] = useState('')
  const send = (e: FormEvent): void => {
    e.preventDefault()
    api.pair(code.trim()).then(
      () => queryClient.invalidateQueries(),
      (error: Error) => setTrouble(error.message),
    )
  }
  return (
    <div className="screen">
      <header>
        <h1>Pair this tablet with the book</h1>
        <p className="lead">
          The book is open to your own network. Type the code that <code>germane serve --lan</code> printed.
        </p>
      </header>
      <form onSubmit={send} className="pairing">
        <TextInput
          label="Pairing code"
          value={code}
          onChange={(e) => setCode(e.currentTarget.value)}
          error={trouble === '' ? undefined : trouble}
          inputMode="numeric"
          autoComplete="one-time-code"
          autoFocus
        />
        <Button type="submit" className="first">
          Pair
        </Button>
      </form>
    </div>
  )
}
