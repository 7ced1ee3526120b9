export { Find } from './find.tsx'
