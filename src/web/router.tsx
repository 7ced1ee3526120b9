import { createRootRoute, createRoute, createRouter, lazyRouteComponent } from '@tanstack/react-router'
import { drawerHeadQuery, jobsQuery, matchOffersQuery, queryClient, testersQuery, typesQuery } from '#web/live'
import { Nowhere, Shell, Trouble, Waiting } from '#web/shell'
import { StartScreen } from '#web/start'

const root = createRootRoute({ component: Shell, notFoundComponent: Nowhere })

/** Search words of an address stay the texts they are. */
const words = (search: Record<string, unknown>): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(search).filter((e): e is [string, string] => typeof e[1] === 'string'))

const readWords = (text: string): Record<string, string> => Object.fromEntries(new URLSearchParams(text))
const writeWords = (search: Record<string, unknown>): string => {
  const text = new URLSearchParams(words(search)).toString()
  return text === '' ? '' : `?${text}`
}

const under = { getParentRoute: () => root, validateSearch: words } as const

// What a screen shows first is asked for together with its code; where that fails, the screen itself says so.
const screens = root.addChildren([
  createRoute({ ...under, path: '/', component: StartScreen }),
  createRoute({
    ...under,
    path: '/testers',
    loader: () => void queryClient.prefetchQuery(testersQuery),
    component: lazyRouteComponent(() => import('#web/tester'), 'TestersScreen'),
  }),
  createRoute({
    ...under,
    path: '/testers/$id',
    component: lazyRouteComponent(() => import('#web/tester'), 'TesterScreen'),
  }),
  createRoute({
    ...under,
    path: '/testers/$id/upkeep',
    component: lazyRouteComponent(() => import('./upkeep/index.ts'), 'UpkeepScreen'),
  }),
  createRoute({
    ...under,
    path: '/testers/$id/upkeep/$part',
    component: lazyRouteComponent(() => import('./upkeep/index.ts'), 'UpkeepScreen'),
  }),
  createRoute({
    ...under,
    path: '/types',
    loader: () => void queryClient.prefetchQuery(typesQuery),
    component: lazyRouteComponent(() => import('#web/type'), 'TypesScreen'),
  }),
  createRoute({
    ...under,
    path: '/types/$type',
    component: lazyRouteComponent(() => import('#web/type'), 'TypeScreen'),
  }),
  createRoute({
    ...under,
    path: '/run',
    component: lazyRouteComponent(() => import('./run/index.tsx'), 'RunScreen'),
  }),
  createRoute({
    ...under,
    path: '/run/$id',
    component: lazyRouteComponent(() => import('./run/index.tsx'), 'RunScreen'),
  }),
  createRoute({
    ...under,
    path: '/drawer',
    loader: () => void queryClient.prefetchQuery(drawerHeadQuery),
    component: lazyRouteComponent(() => import('./drawer/index.tsx'), 'DrawerScreen'),
  }),
  createRoute({
    ...under,
    path: '/match',
    loader: () => void queryClient.prefetchQuery(matchOffersQuery),
    component: lazyRouteComponent(() => import('./match/index.tsx'), 'MatchScreen'),
  }),
  createRoute({
    ...under,
    path: '/identify',
    component: lazyRouteComponent(() => import('./identify/index.tsx'), 'IdentifyScreen'),
  }),
  createRoute({
    ...under,
    path: '/stage',
    loader: () => void queryClient.prefetchQuery(typesQuery),
    component: lazyRouteComponent(() => import('./stage/index.tsx'), 'StageScreen'),
  }),
  createRoute({
    ...under,
    path: '/jobs',
    loader: () => void queryClient.prefetchQuery(jobsQuery),
    component: lazyRouteComponent(() => import('#web/jobs'), 'JobsScreen'),
  }),
  createRoute({
    ...under,
    path: '/jobs/$id',
    component: lazyRouteComponent(() => import('#web/jobs'), 'JobScreen'),
  }),
  createRoute({
    ...under,
    path: '/parts/$tag',
    component: lazyRouteComponent(() => import('./part/index.tsx'), 'PartScreen'),
  }),
  createRoute({
    ...under,
    path: '/curves',
    component: lazyRouteComponent(() => import('#web/curve'), 'CurvesScreen'),
  }),
  createRoute({
    ...under,
    path: '/report',
    component: lazyRouteComponent(() => import('./part/index.tsx'), 'ReportScreen'),
  }),
])

export const router = createRouter({
  routeTree: screens,
  parseSearch: readWords,
  stringifySearch: writeWords,
  defaultPreload: 'intent',
  scrollRestoration: true,
  defaultPendingComponent: Waiting,
  defaultErrorComponent: Trouble,
  defaultPendingMs: 300,
})

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router
  }
}
