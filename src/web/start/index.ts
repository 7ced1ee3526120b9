export { StartScreen } from './start-screen.tsx'
