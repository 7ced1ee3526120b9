export { Shell } from './shell.tsx'
export { Nowhere, Trouble, Waiting } from './states.tsx'
