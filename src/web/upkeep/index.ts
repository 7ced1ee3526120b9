export { UpkeepScreen } from './upkeep-screen.tsx'
