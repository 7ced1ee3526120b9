import { Prose } from '#web/typeset'

/** A sentence or a cell of a sheet, with real minus signs, and each value on a line with its unit. */
export const Said = ({ text }: { readonly text: string }) => (
  <Prose text={text.replaceAll(/(?<=^|[\s(])-(?=[\d.])/g, '\u2212')} />
)
