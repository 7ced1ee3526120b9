import { sayDone, type Unsaved } from '#web/live'

interface Props {
  readonly unsaved: Unsaved
  readonly start: string
}

/** Said where one leaves a text that is not saved. */
export const sayUnsaved = (): void =>
  sayDone({ say: 'What you typed is not saved, but kept in this browser: go on with it whenever you edit this again.' })

/** Says that a text is what was typed here before, and offers what it began with. */
export const FromBefore = ({ unsaved, start }: Props) =>
  unsaved.isFromBefore ? (
    <p className="said" role="status">
      This is what you typed here before. It is not saved yet.{' '}
      <button type="button" className="word" onClick={() => unsaved.setText(start)}>
        Throw it away
      </button>
    </p>
  ) : null
