/**
 * Edit distance where a swap of two neighbours counts as one slip, as typing slips do. Stops counting above `most`.
 */
function distance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1
  let before: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1
      let d = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, before[j - 2]! + 1)
      row.push(d)
    }
    before = last
    last = row
  }
  return last[b.length]!
}

const plain = (text: string): string => text.toLowerCase().replaceAll(/[\s_.-]+/g, '')

/** One begins with the other, or both share most of their letters from the start: `polarity`, `polarities`. */
function beginsAlike(a: string, b: string): boolean {
  const shorter = Math.min(a.length, b.length)
  let alike = 0
  while (alike < shorter && a[alike] === b[alike]) alike++
  return (alike === a.length && alike >= 2) || alike >= Math.max(3, 0.75 * shorter)
}

/**
 * Names that look like a text, best first: for "did you mean". Case, blanks, hyphens and underscores do not count; a
 * slip in about every third letter still counts as near, and so does a name that begins alike.
 *
 * @example nearNames('clas', ['class', 'coil', 'zero']) // ['class']
 */
export function nearNames(text: string, names: readonly string[], most = 3): readonly string[] {
  const wanted = plain(text.slice(0, 60))
  if (wanted === '') return []
  const allowed = Math.floor(wanted.length / 3)
  const scored: { readonly name: string; readonly score: number }[] = []
  for (const name of names) {
    const candidate = plain(name)
    const d = distance(wanted, candidate, allowed)
    if (d <= allowed) scored.push({ name, score: d })
    else if (beginsAlike(wanted, candidate)) scored.push({ name, score: allowed + 1 })
  }
  return scored
    .sort((a, b) => a.score - b.score)
    .slice(0, most)
    .map((s) => s.name)
}
