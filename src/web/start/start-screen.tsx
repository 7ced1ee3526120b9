import { useQuery } from '@tanstack/react-query'
import type { BookSummary } from '#api'
import { bookQuery, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { EmptyStart } from './empty-start.tsx'
import { UsedStart } from './used-start.tsx'
import './start.css'

/** Where one comes in: what to do first, or what is going on. */
export function StartScreen() {
  useScreenTitle('')
  const { data, error } = useQuery(bookQuery)
  if (error !== null) throw error
  if (data === undefined) return <Waiting />
  return isUsed(data) ? <UsedStart book={data} /> : <EmptyStart />
}

const isUsed = (book: BookSummary): boolean => !book.isEmpty
