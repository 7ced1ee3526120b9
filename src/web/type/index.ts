export { TypeScreen } from './type-screen.tsx'
export { TypesScreen } from './types-screen.tsx'
