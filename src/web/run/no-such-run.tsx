import { Link } from '@tanstack/react-router'
import { NotThere } from '#web/shell'

/** An address that names no run of the book. */
export const NoSuchRun = ({ id }: { readonly id: string }) => (
  <NotThere title="No such run" say={`No run of this book has the number ${id}.`}>
    <Link to="/run" className="button">
      Begin a run
    </Link>
  </NotThere>
)
