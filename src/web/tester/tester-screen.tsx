export function TesterScreen() {
  return <div className="screen" />
}
