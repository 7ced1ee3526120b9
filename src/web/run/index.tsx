import { useScreenTitle } from '#web/live'

export function RunScreen() {
  useScreenTitle('Run')
  return (
    <div className="screen">
      <header>
        <h1>Run</h1>
      </header>
    </div>
  )
}
