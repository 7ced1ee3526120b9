export { JobScreen } from './job-screen.tsx'
export { JobsScreen } from './jobs-screen.tsx'
