export { reportHtml } from './report-html.ts'
export { pageCss } from './style.ts'
