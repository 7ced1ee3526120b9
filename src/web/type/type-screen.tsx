export function TypeScreen() {
  return <div className="screen" />
}
