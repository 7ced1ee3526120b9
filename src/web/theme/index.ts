export { BookTheme, type Scheme, useScheme } from './book-theme.tsx'
