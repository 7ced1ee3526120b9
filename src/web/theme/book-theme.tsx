import { MantineProvider, useMantineColorScheme } from '@mantine/core'
import type { ReactNode } from 'react'
import { bookTheme } from './mantine.ts'
import './ink.css'
import './book.css'
import './tables.css'
import './plots.css'
import './form.css'

/** Light, dark, or as the machine is set. */
export type Scheme = 'light' | 'dark' | 'auto'

/** Gives the whole page its theme. No style element is written: every rule is in the style sheets. */
export function BookTheme({ children }: { readonly children: ReactNode }): ReactNode {
  return (
    <MantineProvider
      theme={bookTheme}
      defaultColorScheme="auto"
      withCssVariables={false}
      withGlobalClasses={false}
      withStaticClasses={false}
      deduplicateCssVariables={false}
    >
      {children}
    </MantineProvider>
  )
}

/** The scheme chosen, and the way to choose another; the choice is kept in this browser. */
export function useScheme(): readonly [Scheme, (scheme: Scheme) => void] {
  const { colorScheme, setColorScheme } = useMantineColorScheme({ keepTransitions: true })
  return [colorScheme, setColorScheme]
}
