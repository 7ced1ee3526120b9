import { Link } from '@tanstack/react-router'
import { NotThere } from '#web/shell'

/** An address that names no tester of the book, and no sample. */
export const NoSuchTester = ({ id }: { readonly id: string }) => (
  <NotThere title="No such tester" say={`No tester of this book, and no sample, is called “${id}”.`}>
    <Link to="/testers" className="button">
      See the testers there are
    </Link>
  </NotThere>
)
