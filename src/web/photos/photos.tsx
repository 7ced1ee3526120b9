import { useState } from 'react'
import { largestPhoto, type Photo, photoTypes } from '#api'
import { FileButton } from '#web/field'
import { api, queryClient, sayDone } from '#web/live'
import { dayText } from '#web/typeset'
import './photos.css'

interface Props {
  /** Whose photos they are, for people. */
  readonly of: string
  readonly photos: readonly Photo[]
  /** Name under which the answer they came with is kept. */
  readonly queryKey: readonly unknown[]
  readonly onAdd: (picture: File, name: string) => Promise<{ readonly edit: number }>
}

/** Photos of a part or of a job, kept in the book. */
export function Photos({ of, photos, queryKey, onAdd }: Props) {
  const [fault, setFault] = useState<string>()
  const again = () => queryClient.invalidateQueries({ queryKey: [...queryKey] })
  const add = async (file: File): Promise<void> => {
    const wrong = wrongWith(file)
    if (wrong !== undefined) return setFault(wrong)
    try {
      const { edit } = await onAdd(file, file.name.slice(0, 200))
      await again()
      sayDone({ say: `Photo of ${of} kept.`, edit })
    } catch (e) {
      setFault(e instanceof Error ? e.message : String(e))
    }
  }
  const remove = async (photo: Photo): Promise<void> => {
    const { edit } = await api.removePhoto(photo.id)
    await again()
    sayDone({ say: `Photo of ${of} taken away.`, edit })
  }
  return (
    <div>
      {photos.length > 0 && (
        <ul className="photos">
          {photos.map((p) => (
            <li key={p.id}>
              <a href={api.photoUrl(p.id)} target="_blank" rel="noreferrer">
                <img src={api.photoUrl(p.id)} alt={`${of}: ${p.name}`} loading="lazy" />
              </a>
              <p className="small">
                <bdi>{p.name}</bdi> <span className="soft">{dayText(p.at)}</span>{' '}
                <button
                  type="button"
                  className="word"
                  onClick={() => void remove(p).catch((e: unknown) => setFault(String(e)))}
                >
                  Take away
                </button>
              </p>
            </li>
          ))}
        </ul>
      )}
      <p className="photo-add">
        <FileButton
          says="Add a photo"
          accept={photoTypes.join(',')}
          onFile={(file) => {
            setFault(undefined)
            void add(file)
          }}
        />
        <span className="soft small">PNG, JPEG or WebP, up to 8 MB. It is kept inside the book.</span>
      </p>
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </div>
  )
}

function wrongWith(file: File): string | undefined {
  if (!photoTypes.some((t) => t === file.type))
    return `${file.name} is no picture the book takes. Save it as PNG, JPEG or WebP.`
  if (file.size > largestPhoto)
    return `${file.name} has ${(file.size / 1024 / 1024).toFixed(1)} MB; the book takes up to 8 MB. Save it smaller.`
  return undefined
}
