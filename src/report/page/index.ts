export { pageShell } from './page-shell.ts'
export { reportHtml } from './report-html.ts'
export { pageCss } from './style.ts'
export { scrolling } from './tables-html.ts'
