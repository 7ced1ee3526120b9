import { type ChangeEvent, useId } from 'react'

interface Props {
  /** What the button says: "Add a photo". */
  readonly says: string
  /** Kinds of files it takes, as a browser is told. */
  readonly accept: string
  readonly onFile: (file: File) => void
}

/** A button that asks for a file; the same file can be given again. */
export function FileButton({ says, accept, onFile }: Props) {
  const id = useId()
  const take = (e: ChangeEvent<HTMLInputElement>): void => {
    const file = e.target.files?.[0]
    e.target.value = ''
    if (file !== undefined) onFile(file)
  }
  return (
    <span className="file">
      <label htmlFor={id} className="button">
        {says}
      </label>
      <input id={id} className="vh" type="file" accept={accept} onChange={take} />
    </span>
  )
}
