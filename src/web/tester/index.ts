export { TesterScreen } from './tester-screen.tsx'
export { TestersScreen } from './testers-screen.tsx'
