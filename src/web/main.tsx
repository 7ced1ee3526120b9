import { QueryClientProvider } from '@tanstack/react-query'
import { RouterProvider } from '@tanstack/react-router'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { config } from 'zod/v4/core'
import { listenToKeys } from '#web/keys'
import { queryClient } from '#web/live'
import { BookTheme } from '#web/theme'
import { router } from './router.tsx'

// The page's security policy lets no text become code: the schema library must not try.
config({ jitless: true })
listenToKeys()

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
