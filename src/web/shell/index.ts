export { Shell } from './shell.tsx'
export { NothingRead, NotThere, Nowhere, Trouble, Waiting } from './states.tsx'
