export { verbs } from './commands.ts'
export { exitCodes } from './exit.ts'
export { germane } from './program.ts'
export { usageFault } from './usage.ts'
