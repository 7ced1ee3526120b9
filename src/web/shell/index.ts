export { Shell } from './shell.tsx'
export { NothingRead, Nowhere, Trouble, Waiting } from './states.tsx'
