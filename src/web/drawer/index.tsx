import { useScreenTitle } from '#web/live'

export function DrawerScreen() {
  useScreenTitle('Drawer')
  return (
    <div className="screen">
      <header>
        <h1>Drawer</h1>
      </header>
    </div>
  )
}
