export function TestersScreen() {
  return <div className="screen" />
}
