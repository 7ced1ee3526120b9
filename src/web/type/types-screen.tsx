export function TypesScreen() {
  return <div className="screen" />
}
