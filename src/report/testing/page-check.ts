/** Elements that have no end tag. */
const empty = new Set(['meta', 'br', 'hr', 'img', 'input', 'link', 'wbr', 'col'])

/** Elements whose content is no markup. */
const raw = /<(style|title)\b[^>]*>([\s\S]*?)<\/\1>/g

/**
 * What is wrong with the tags of a page, as sentences: a tag that does not close, closes what is not open, or is cut
 * short; a heading that skips a level; an id used twice; a link to an id that is not there.
 */
export function pageFaults(page: string): readonly string[] {
  const text = page.replace(/<!DOCTYPE html>/, '')
  return [
    ...tagFaults(text.replace(raw, (_, name: string) => `<${name}></${name}>`)),
    ...headingFaults(text),
    ...idFaults(text),
  ]
}

function tagFaults(text: string): readonly string[] {
  const faults: string[] = []
  const open: string[] = []
  for (const m of text.matchAll(/<(\/?)([a-zA-Z][\w-]*)((?:[^<>"']|"[^"<>]*"|'[^'<>]*')*)(\/?)>|</g)) {
    const [, close, name, attributes] = m
    if (name === undefined) faults.push(`a tag is cut short at: ${text.slice(m.index, m.index + 60)}`)
    else if (close === '/') {
      const last = open.pop()
      if (last !== name) faults.push(`</${name}> closes <${last}>`)
    } else if (!empty.has(name) && !attributes!.endsWith('/')) open.push(name)
  }
  return [...faults, ...open.map((name) => `<${name}> is not closed`)]
}

function headingFaults(text: string): readonly string[] {
  const levels = [...text.matchAll(/<h([1-6])\b/g)].map((m) => Number(m[1]))
  return levels.flatMap((level, i) =>
    level > (levels[i - 1] ?? 0) + 1 ? [`h${level} follows h${levels[i - 1] ?? 0}`] : [],
  )
}

function idFaults(text: string): readonly string[] {
  const ids = [...text.matchAll(/\sid="([^"]*)"/g)].map((m) => m[1]!)
  const known = new Set(ids)
  const twice = ids.filter((id, i) => ids.indexOf(id) !== i).map((id) => `id ${id} is used twice`)
  const lost = [...text.matchAll(/\s(?:href="#|aria-labelledby=")([^"]*)"/g)]
    .map((m) => m[1]!)
    .filter((id) => !known.has(id))
  return [...twice, ...lost.map((id) => `nothing has the id ${id}`)]
}

/** Whatever in a page could ask an address outside or run a program. */
export function outsideReach(page: string): readonly string[] {
  const patterns = [
    /\s(?:src|srcset|data|action|formaction|poster|background|ping|xlink:href)\s*=/gi,
    /\shref="(?!#)[^"]*"/gi,
    /url\(|@import|@font-face|image-set\(/gi,
    /<(?:script|link|iframe|object|embed|base|form|img|audio|video|source|use|image|foreignObject)\b/gi,
    /<[^>]*\son\w+\s*=/gi,
    /http-equiv="refresh"/gi,
    /https?:\/\//gi,
  ]
  return patterns.flatMap((p) => page.match(p) ?? [])
}
