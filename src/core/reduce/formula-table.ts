import {
  baseVoltageSlope,
  type DoubtfulNumber,
  forwardVoltageSlope,
  gainSlope,
  leakageDoublings,
  openBaseDoublings,
  reverseDoublings,
} from '#core/physics'
import type { AnyFormula, Source } from '#core/quantity'
import {
  baseIdeality,
  baseIdealityLoaded,
  diodeIdeality,
  gainCurrentExponent,
  gainVoltageExponent,
  leakageExponent,
  openBaseExponent,
  warmShare,
} from './law-number.ts'
import { type Recipe, recipes } from './recipe.ts'
import { allFormulas } from './registry.ts'

const both = (
  name: string,
  n: Readonly<Record<'Ge' | 'Si', DoubtfulNumber>>,
): readonly (readonly [string, DoubtfulNumber])[] => [
  [`${name}, germanium`, n.Ge],
  [`${name}, silicon`, n.Si],
]

/** Every number that is known only roughly and stands in budgets as a cause of its own. */
export const doubtfulNumbers: readonly (readonly [name: string, number: DoubtfulNumber])[] = [
  ...both('doublings of I_CBO, I_CES, I_EBO per kelvin', leakageDoublings),
  ...both('doublings of I_CEO per kelvin', openBaseDoublings),
  ...both('doublings of I_R per kelvin', reverseDoublings),
  ...both('change of V_BE, V/K', baseVoltageSlope),
  ...both('change of V_F, V/K', forwardVoltageSlope),
  ...both('change of gain per kelvin', gainSlope),
  ['exponent of leakage against voltage', leakageExponent],
  ...both('exponent of I_CEO against voltage', openBaseExponent),
  ['exponent of gain against collector current', gainCurrentExponent],
  ...both('exponent of gain against collector voltage', gainVoltageExponent),
  ['ideality for g_m and h_ie', baseIdeality],
  ['ideality for carrying V_BE', baseIdealityLoaded],
  ['ideality for carrying V_F', diodeIdeality],
  ['share of own warming while read', warmShare],
]

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [row(head), row(head.map(() => '---')), ...rows.map(row)].join('\n')

const sourceText = (s: Source): string =>
  `${s.title}${s.where === undefined ? '' : `, ${s.where}`}${s.standing === undefined || s.standing === 'published' ? '' : ` (${s.standing})`}`

const unitName = (unit: string): string => (unit === '1' ? 'a number' : unit)

function formulaRow(f: AnyFormula): readonly string[] {
  const symbols: Readonly<Record<string, string>> = f.symbols
  const units: Readonly<Record<string, string>> = f.inputs
  const inputs = Object.keys(units).map((name) => `${symbols[name]} (${unitName(units[name]!)})`)
  return [`\`${f.id}\` ${f.version}`, `\`${f.text}\``, inputs.join(', '), unitName(f.unit), sourceText(f.source)]
}

const groups = [
  ['tester', 'From needle and display to the part'],
  ['physics', 'Temperature'],
  ['reduce', 'Parameters and carrying them over'],
  ['upkeep', 'Care of the tester'],
] as const

function formulaGroup([module, title]: readonly [string, string], formulas: readonly AnyFormula[]): string {
  const own = formulas.filter((f) => f.id.startsWith(`${module}/`))
  if (own.length === 0) return ''
  return `## ${title}\n\n${table(['Formula and version', 'Text', 'Goes in', 'Comes out', 'Source'], own.map(formulaRow))}`
}

const groupTexts = (formulas: readonly AnyFormula[]): string =>
  groups
    .map((g) => formulaGroup(g, formulas))
    .filter((text) => text !== '')
    .join('\n\n')

/** A number as short as it is exact. */
const short = (x: number): string => String(Number(x.toPrecision(6)))

const doubtfulRow = ([name, n]: readonly [string, DoubtfulNumber]): readonly string[] => [
  name,
  short(n.centre),
  short(n.halfWidth),
  n.says,
  sourceText(n.source),
]

const scopes: Readonly<Record<Recipe['scope'], string>> = {
  point: 'one point',
  'current pair': 'two points that differ in current',
  'voltage pair': 'two points that differ in collector voltage',
  triple: 'three points that differ in current',
}

const needNames: Readonly<Record<string, string>> = {
  ideality: 'ideality (taken for granted)',
  kelvin: 'temperature',
  ambient: 'room temperature',
  whole: 'left on for good',
  rth: 'thermal resistance of the type',
}

/** A need of the table in words. */
function needText(need: string): string {
  const named = needNames[need]
  if (named !== undefined) return named
  const [first, second] = need.split(' ')
  if (first === 'read') return second!
  if (first === 'leak') return `${second}, carried to this point`
  return /^[123]$/.test(first!) ? `${second} at point ${first}` : need
}

const recipeRow = (r: Recipe): readonly string[] => [
  r.symbol,
  scopes[r.scope],
  Object.values(r.needs).map(needText).join('; '),
  r.formula === undefined ? 'as read' : `\`${r.formula.id}\``,
]

/**
 * The reference page of formulas, made from the registry: what is documented is what is computed.
 *
 * @param later formulas of modules that stand above this one
 */
export const formulaTable = (later: readonly AnyFormula[] = []): string => `# Formulas

This page is made from the registry of formulas and compared with it by a test. An id is never given to another formula; a formula that changes gets a new version, and old records still name the old one. Symbols are IEC 60747 letter symbols where there are any; \`h_FE0\` is a gain with the leakage taken out. Values of PNP parts are magnitudes.

"From memory" and "common practice" stand wherever they apply: check them before you lean on them.

${groupTexts([...allFormulas.values(), ...later])}

## Numbers known only roughly

Every value from the centre less the half-width to the centre plus the half-width is taken as equally likely. The doubt stands in each budget as a cause of its own, part by part.

${table(['Number', 'Centre', 'Half-width', 'In words', 'Source'], doubtfulNumbers.map(doubtfulRow))}

## Which readings give which parameter

Leakages (I_CEO, I_CBO, I_CES, I_EBO, I_R) are listed as read. For the rest the table is tried from the top; for one symbol the first row counts whose readings are all there. Steps on the way are not listed as parameters.

${table(['Parameter', 'From', 'Needs', 'Formula'], recipes.filter((r) => r.isStep === undefined).map(recipeRow))}
`
