export type { Rule, Verdict, VerdictWord } from './verdict.ts'
