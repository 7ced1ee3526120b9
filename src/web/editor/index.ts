export { type DiffLine, diffLines } from './diff.ts'
export { type LineNote, notesOf } from './notes.ts'
export { TextDiff } from './text-diff.tsx'
export { TextEditor } from './text-editor.tsx'
