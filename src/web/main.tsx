import { QueryClientProvider } from '@tanstack/react-query'
import { RouterProvider } from '@tanstack/react-router'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { listenToKeys } from '#web/keys'
import { listenToBook, queryClient } from '#web/live'
import { BookTheme } from '#web/theme'
import { router } from './router.tsx'

listenToKeys()
listenToBook()

const page = document.getElementById('page')
if (page !== null)
  createRoot(page).render(
    <StrictMode>
      <BookTheme>
        <QueryClientProvider client={queryClient}>
          <RouterProvider router={router} />
        </QueryClientProvider>
      </BookTheme>
    </StrictMode>,
  )
