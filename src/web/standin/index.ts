export { Found } from './found.tsx'
