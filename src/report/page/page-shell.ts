import { html, type Markup, trusted } from '#report/typeset'
import { pageCss } from './style.ts'

/** Nothing may be loaded, run, framed or sent; only the page's own style sheet holds. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"

/** One file that needs nothing else, asks nothing of any address and runs no script. */
export const pageShell = (title: string, body: Markup): string =>
  html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<style>${trusted(pageCss())}</style>
</head>
<body>
${body}
</body>
</html>
`.markup
