import { useScreenTitle } from '#web/live'

export function StartScreen() {
  useScreenTitle('')
  return (
    <div className="screen">
      <header>
        <h1>The bench book</h1>
      </header>
    </div>
  )
}
