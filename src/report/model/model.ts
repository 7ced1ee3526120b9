import type { BudgetBars, IntervalPlot, LinePlot, ScatterPlot } from '#report/plot'
import type { Figure, Outcome } from '#report/typeset'
import type { Workings } from './report-input.ts'

/** A page as plain data: every number printed, every sentence made, nothing laid out. */
export interface ReportModel {
  readonly format: 'germane/report/1'
  readonly kind: 'part' | 'lot'
  readonly title: string
  /** What to know first. */
  readonly lead: readonly LeadLine[]
  readonly about: readonly Fact[]
  readonly summary: readonly Count[]
  readonly notes: readonly string[]
  readonly tables: readonly PartTable[]
  readonly plots: readonly PlotModel[]
  readonly curves: readonly CurvePicture[]
  readonly limits: readonly LimitRow[]
  readonly sections: readonly PartSection[]
  /** What is not on the page, and how to get it. */
  readonly leftOut?: string
  /** How the page is to be read. */
  readonly reading: readonly string[]
  readonly cautions: readonly string[]
  readonly workings: Workings
}

/** A sentence of the lead, and the parts it names. */
export interface LeadLine {
  readonly say: string
  readonly outcome?: Outcome
  readonly parts: readonly NamedPart[]
  /** How many more there are than are named. */
  readonly more: number
}

export interface NamedPart {
  readonly tag: string
  /** Id of its section, where it has one. */
  readonly section?: string
  /** Symbols that brought its outcome about. */
  readonly because: readonly string[]
}

/** A named fact of the heading. */
export interface Fact {
  readonly name: string
  readonly text: string
  readonly detail?: string
}

/** How many parts came out one way. */
export interface Count {
  readonly outcome: Outcome
  readonly parts: number
}

/** Parts of one kind, a row each, with the parameters they have in common. */
export interface PartTable {
  readonly caption: string
  readonly columns: readonly Column[]
  readonly rows: readonly PartRow[]
}

export interface Column {
  readonly symbol: string
  readonly name: string
}

export interface PartRow {
  readonly tag: string
  /** Id of the part's section, where it has one. */
  readonly section?: string
  readonly type: string
  /** One for each column; null where the part has no such parameter. */
  readonly cells: readonly (Cell | null)[]
  readonly outcome: Outcome
  /** Symbols that brought that outcome about, where it is not plain. */
  readonly because: readonly string[]
}

export interface Cell {
  readonly figure: Figure
  /** Of this number, where it was judged. */
  readonly outcome?: Outcome
}

/** Curves over each other, with what is to be said of them. */
export interface CurvePicture {
  readonly plot: LinePlot
  readonly caption: string
}

export type PlotModel =
  | {
      readonly kind: 'interval'
      readonly caption: string
      readonly outcomes: readonly Outcome[]
      readonly plot: IntervalPlot
    }
  | {
      readonly kind: 'scatter'
      readonly caption: string
      readonly outcomes: readonly Outcome[]
      readonly plot: ScatterPlot
    }

/** A published limit that something was held against. */
export interface LimitRow {
  readonly type: string
  readonly symbol: string
  readonly name: string
  readonly bounds: Bounds
  readonly conditions: readonly Condition[]
  readonly note?: string
  readonly source: string
}

export interface Bounds {
  readonly min?: Figure
  readonly typ?: Figure
  readonly max?: Figure
}

export interface Condition {
  readonly symbol: string
  readonly figure: Figure
}

/** All about one part. */
export interface PartSection {
  readonly id: string
  readonly tag: string
  readonly type: string
  /** What kind of part it is: "germanium PNP transistor, TO-1, leads E-B-C". */
  readonly kind: string
  readonly outcome: Outcome
  /** One sentence on how it came out. */
  readonly lead: string
  /** Known trouble with the type. */
  readonly trouble?: string
  readonly doubts: readonly DoubtLine[]
  readonly results: readonly Result[]
  /** Symbols of published limits that were not tested here. */
  readonly untested: readonly string[]
  /** Steps that several of its numbers need, worked once. */
  readonly shared: readonly WorkingStep[]
  readonly readings: readonly ReadingRow[]
}

export interface DoubtLine {
  readonly weight: 'nonsense' | 'notice'
  readonly say: string
}

/** One parameter of a part. */
export interface Result {
  readonly id: string
  readonly symbol: string
  readonly name: string
  readonly figure: Figure
  readonly standing: string
  readonly conditions: readonly Condition[]
  readonly temperature: Figure
  readonly verdicts: readonly VerdictLine[]
  readonly doubts: readonly DoubtLine[]
  readonly working?: WorkingModel
}

export interface VerdictLine {
  readonly outcome: Outcome
  /** "99 %" that the limit is met. */
  readonly probability?: string
  readonly bounds: Bounds
  readonly conditions: readonly Condition[]
  readonly why: string
  readonly settle?: string
  readonly note?: string
  readonly source: string
}

/** The working of one number, result first, then what it was made from. */
export interface WorkingModel {
  readonly steps: readonly WorkingStep[]
  readonly budget?: BudgetBars
  /** What stands behind the plus-minus sign; or why there is no working. */
  readonly coverage: string
}

export interface WorkingStep {
  readonly symbol: string
  /** What it is, in words. */
  readonly what: string
  readonly result: Figure
  /** Formula as printed; left out where the number is not derived. */
  readonly formula?: string
  /** Its right side with the numbers put in. */
  readonly putIn?: string
  readonly source?: string
  /** How a number that is not derived is known. */
  readonly known?: string
  /** Id of a step that others refer to. */
  readonly id?: string
  /** Where it is worked, if not here: id of the place, and the symbol of the number it is worked under. */
  readonly worked?: { readonly id: string; readonly under?: string }
}

/** A reading as the person saw it. */
export interface ReadingRow {
  readonly reads: string
  readonly seen: string
  readonly range: string
  readonly supply?: Figure
  readonly point: number
  readonly ambient?: Figure
  readonly at: string
  readonly note: string
}
