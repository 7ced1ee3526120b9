export { Photos } from './photos.tsx'
