import { useMutation } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { announce, api, queryClient } from '#web/live'

/** An empty book says what to do first, and offers the demo. */
export function EmptyStart() {
  const demo = useMutation({
    mutationFn: () => api.makeDemo(),
    onSuccess: async (made) => {
      await queryClient.invalidateQueries()
      announce(`The demo is open: ${made.parts.length} parts.`)
    },
  })
  return (
    <div className="screen start">
      <header>
        <h1>This book is empty</h1>
        <p className="lead">
          Germane plans a safe run for your tester, takes down what the needle shows, and tells what each part is worth,
          with the doubt that belongs to it.
        </p>
      </header>
      <ol className="start-steps">
        <li>
          <h2>
            <Link to="/testers">Your tester</Link>
          </h2>
          <p>
            Describe it once: its ranges, its movement, its cells. Four invented ones are there to try with and to copy
            from.
          </p>
        </li>
        <li>
          <h2>
            <Link to="/types">The part</Link>
          </h2>
          <p>
            Look up the type on the part: its limits, its leads, what it bears. A part without a name will do as well:{' '}
            <Link to="/identify">a meter tells what it is</Link>.
          </p>
        </li>
        <li>
          <h2>
            <Link to="/run">A run</Link>
          </h2>
          <p>
            One step at a time: what to set, where the needle should come to rest, and a field for what it shows. Typing{' '}
            <kbd>7.3 div</kbd> is enough.
          </p>
        </li>
      </ol>
      <div className="start-demo">
        <p>
          Or look around first. The demo is an invented lot: fourteen transistors and diodes of a tide recorder, read in
          one afternoon, one of them shorted and one too leaky.
        </p>
        <button type="button" className="button first" disabled={demo.isPending} onClick={() => demo.mutate()}>
          {demo.isPending ? 'Opening …' : 'Open the demo'}
        </button>
        {demo.error !== null && (
          <p className="said bad" role="alert">
            {demo.error.message}
          </p>
        )}
      </div>
    </div>
  )
}
