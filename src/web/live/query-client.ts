import { QueryClient } from '@tanstack/react-query'

/** What the page holds of the book. Other windows' changes come as events, so nothing is asked for on a clock. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: { staleTime: 5 * 60_000, gcTime: 30 * 60_000, retry: 1, refetchOnWindowFocus: false },
    mutations: { retry: 0 },
  },
})
