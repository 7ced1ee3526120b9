import { type PartChanges, type PartEntry, partStatusWords } from '#api'
import { KeptArea, KeptChoice, KeptLine } from '#web/field'
import { api, queryClient, queryKeys, sayDone } from '#web/live'

type Field = keyof PartChanges

const names: Readonly<Record<Field, string>> = {
  type: 'Type',
  place: 'Place',
  status: 'Status',
  usedIn: 'Used in',
  lot: 'Lot',
  note: 'Note',
}

/** What the person says of a part; its type too, where none was ever named. A field is kept when one leaves it or presses Enter, and can be undone. */
export function SaidOf({ part }: { readonly part: PartEntry }) {
  const field = (name: Field) => ({
    label: names[name],
    value: part[name] ?? '',
    onKeep: (text: string) => keep(part, name, text),
  })
  return (
    <div className="said-of">
      <KeptChoice {...field('status')} words={partStatusWords} />
      {part.type === undefined && <KeptLine {...field('type')} hint="2N1305, once you know it" />}
      <KeptLine {...field('place')} hint="drawer 3" />
      <KeptLine {...field('usedIn')} hint="amplifier board, Q1" />
      <KeptLine {...field('lot')} />
      <KeptArea {...field('note')} className="said-note" hint="What you saw, heard or smelled" />
    </div>
  )
}

async function keep(part: PartEntry, field: Field, text: string): Promise<void> {
  if (text === (part[field] ?? '')) return
  const { edit } = await api.changeParts([part.tag], { [field]: text })
  await queryClient.invalidateQueries({ queryKey: queryKeys.part(part.tag) })
  sayDone({
    say: `${names[field]} of ${part.tag} ${text === '' ? 'taken away' : 'changed'}.`,
    ...(edit === undefined ? {} : { edit }),
  })
}
