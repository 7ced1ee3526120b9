export { NoSuchTester } from './no-such-tester.tsx'
export { TesterScreen } from './tester-screen.tsx'
export { TestersScreen } from './testers-screen.tsx'
