export { NoSuchTester } from './no-such-tester.tsx'
export { TesterScreen } from './tester-screen.tsx'
export { rangeName, tight } from './tester-words.ts'
export { TestersScreen } from './testers-screen.tsx'
