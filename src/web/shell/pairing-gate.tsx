import { Button, TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { type FormEvent, type ReactNode, useState } from 'react'
import { api, queryClient } from '#web/live'
import { useAhead } from './ahead.ts'

interface Props {
  readonly children: ReactNode
}

/** On a server that is open to the local network, asks for the code it printed before it shows anything. */
export function PairingGate({ children }: Props) {
  const { data } = useQuery({ queryKey: ['pairing'], queryFn: () => api.pairing() })
  const isShut = data?.isNeeded && !data.isPaired
  useAhead(data !== undefined && !isShut)
  return isShut ? <PairingForm /> : children
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
