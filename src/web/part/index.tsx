import { useScreenTitle } from '#web/live'

export function PartScreen() {
  useScreenTitle('Part')
  return (
    <div className="screen">
      <header>
        <h1>Part</h1>
      </header>
    </div>
  )
}

export function ReportScreen() {
  useScreenTitle('Report')
  return (
    <div className="screen">
      <header>
        <h1>Report</h1>
      </header>
    </div>
  )
}
