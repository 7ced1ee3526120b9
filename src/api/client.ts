import type { RunSheet } from '#core/sheet'
import type { Availability } from '#core/standin'
import type { BookSummary, DemoMade } from './book.ts'
import type { KeptCurve, NewCurve } from './curve.ts'
import type { Drawer, DrawerChanges, HeldTypes } from './drawer.ts'
import type { ChangeEvent } from './event.ts'
import { listenTo } from './event-stream.ts'
import { type ClientOptions, exchangeWith, pathWith } from './exchange.ts'
import type { JobChanges, JobDetail, JobEdited, JobInShort, NewPosition, PlaceOfPart, PositionChanges } from './job.ts'
import type { MatchChoice, MatchOffers } from './match.ts'
import type { Pairing } from './pairing.ts'
import type { PartChanges, PartStory, PartsChanged, Photo } from './part.ts'
import type { Correction, NewReading, Outcomes, PlanBody, ReadingTaken, RunDetail, RunEntry } from './run.ts'
import type { Found } from './search.ts'
import type { StageParts } from './stage.ts'
import type { StandInsAnswer, StandInUse } from './standin.ts'
import type { Coverage, Saved, TesterCheck, TesterDetail, TesterEntry } from './tester.ts'
import type { TypeCheck, TypeDetail, TypeList } from './type.ts'
import type { EditEntry, Undone } from './undo.ts'
import type { KeptUpkeep, NewFound, NewStandard, PairedReadings, TesterHealth, Upkeep } from './upkeep.ts'
import type { ReportWishes, Work, WorkBody } from './work.ts'

export type ApiClient = ReturnType<typeof apiClient>

const named = (name: string): string => encodeURIComponent(name)

/**
 * The server's routes as functions. Each promise breaks with an `ApiFault` where the server refused and said why, and
 * with an `ApiUnreachable` where no answer came.
 *
 * @param baseUrl address of the server, without a slash at the end; empty for the page's own
 * @example const api = apiClient(''); const book = await api.bookSummary()
 */
export function apiClient(baseUrl: string, options: ClientOptions = {}) {
  const ask = exchangeWith(baseUrl, options)
  const post = <T>(path: string, body: unknown): Promise<T> => ask<T>(path, { method: 'POST', body })
  return {
    bookSummary: () => ask<BookSummary>('/api/book'),
    makeDemo: () => post<DemoMade>('/api/demo', {}),

    testers: async () => (await ask<{ testers: TesterEntry[] }>('/api/testers')).testers,
    tester: (id: string, version?: number) => ask<TesterDetail>(`/api/testers/${named(id)}`, { query: { version } }),
    checkTester: (text: string) => post<TesterCheck>('/api/testers/check', { text }),
    saveTester: (text: string) => post<Saved>('/api/testers', { text }),
    coverage: (tester: string, type: string) =>
      ask<Coverage>(`/api/testers/${named(tester)}/coverage`, { query: { type } }),

    health: async () => (await ask<{ testers: TesterHealth[] }>('/api/health')).testers,
    upkeep: (tester: string) => ask<Upkeep>(`/api/testers/${named(tester)}/upkeep`),
    keepFound: (tester: string, found: NewFound) => post<KeptUpkeep>(`/api/testers/${named(tester)}/found`, found),
    dropFound: (row: number) => ask<{ edit: number }>(`/api/found/${row}`, { method: 'DELETE' }),
    keepStandard: (tester: string, standard: NewStandard) =>
      post<KeptUpkeep>(`/api/testers/${named(tester)}/standards`, standard),
    dropStandard: (row: number) => ask<{ edit: number }>(`/api/standards/${row}`, { method: 'DELETE' }),
    paired: (tester: string, other: string, symbol: string) =>
      ask<PairedReadings>(`/api/testers/${named(tester)}/paired`, { query: { other, symbol } }),

    types: () => ask<TypeList>('/api/types'),
    type: (type: string) => ask<TypeDetail>(`/api/types/${named(type)}`),
    checkType: (text: string) => post<TypeCheck>('/api/types/check', { text }),
    saveType: async (text: string) => (await post<{ saved: Saved[] }>('/api/types', { text })).saved,

    standIns: (type: string, query: StandInUse = {}) =>
      ask<StandInsAnswer>(`/api/types/${named(type)}/stand-ins`, { query }),
    standInsAt: (body: StandInUse & { readonly position: string; readonly type?: string }, signal?: AbortSignal) =>
      ask<StandInsAnswer>('/api/stand-ins', { method: 'POST', body, signal }),
    markType: (type: string, availability?: Availability) =>
      post<{ type: string; availability?: Availability; edit?: number }>(`/api/types/${named(type)}/availability`, {
        availability,
      }),

    plan: (body: PlanBody) => post<RunSheet>('/api/plan', body),
    runs: async (query: { readonly state?: RunEntry['state']; readonly limit?: number } = {}) =>
      (await ask<{ runs: RunEntry[] }>('/api/runs', { query })).runs,
    startRun: (body: PlanBody & { readonly note?: string }) => post<RunDetail>('/api/runs', body),
    run: (run: number, part?: string) => ask<RunDetail>(`/api/runs/${run}`, { query: { part } }),
    addReading: (run: number, reading: NewReading) => post<ReadingTaken>(`/api/runs/${run}/readings`, reading),
    correctReading: (run: number, reading: number, correction: Correction) =>
      post<ReadingTaken>(`/api/runs/${run}/readings/${reading}/correction`, correction),
    settleRun: (run: number, part?: string) =>
      post<Outcomes>(`/api/runs/${run}/results`, part === undefined ? {} : { part }),
    finishRun: (run: number, state: 'finished' | 'stopped' = 'finished') =>
      post<Outcomes>(`/api/runs/${run}/end`, { state }),

    /** All parts; or so many blocks from one on. */
    drawer: (from?: number, blocks?: number) => ask<Drawer>('/api/drawer', { query: { from, blocks } }),
    drawerChanges: (since: number) => ask<DrawerChanges>('/api/drawer/changes', { query: { since } }),
    heldTypes: () => ask<HeldTypes>('/api/drawer/types'),

    part: (tag: string) => ask<PartStory>(`/api/parts/${named(tag)}`),
    changeParts: (tags: readonly string[], changes: PartChanges) =>
      ask<PartsChanged>('/api/parts', { method: 'PATCH', body: { tags, changes } }),
    photos: async (tag: string) => (await ask<{ photos: Photo[] }>(`/api/parts/${named(tag)}/photos`)).photos,
    addPhoto: (tag: string, picture: Blob, name?: string) =>
      ask<{ photo: Photo; edit: number }>(`/api/parts/${named(tag)}/photos`, {
        method: 'POST',
        upload: picture,
        query: { name },
      }),
    photoUrl: (photo: number) => `${baseUrl}/api/photos/${photo}`,
    removePhoto: (photo: number) => ask<{ edit: number }>(`/api/photos/${photo}`, { method: 'DELETE' }),

    curves: async (tag: string) => (await ask<{ curves: KeptCurve[] }>(`/api/parts/${named(tag)}/curves`)).curves,
    keepCurve: async (tag: string, curve: NewCurve) =>
      (await post<{ curve: KeptCurve }>(`/api/parts/${named(tag)}/curves`, curve)).curve,

    jobs: async () => (await ask<{ jobs: JobInShort[] }>('/api/jobs')).jobs,
    job: (job: number) => ask<JobDetail>(`/api/jobs/${job}`),
    addJob: (body: { readonly name: string; readonly equipment?: string }) => post<JobEdited>('/api/jobs', body),
    addJobText: (text: string, file?: string) => post<JobEdited>('/api/jobs/file', { text, file }),
    changeJob: (job: number, body: JobChanges) => ask<JobEdited>(`/api/jobs/${job}`, { method: 'PATCH', body }),
    removeJob: (job: number) => ask<JobEdited>(`/api/jobs/${job}`, { method: 'DELETE' }),
    addPosition: (job: number, body: NewPosition) => post<JobEdited>(`/api/jobs/${job}/positions`, body),
    changePosition: (job: number, ref: string, body: PositionChanges) =>
      ask<JobEdited>(`/api/jobs/${job}/positions/${named(ref)}`, { method: 'PATCH', body }),
    removePosition: (job: number, ref: string) =>
      ask<JobEdited>(`/api/jobs/${job}/positions/${named(ref)}`, { method: 'DELETE' }),
    reserve: (job: number, tag: string, ref?: string) => post<JobEdited>(`/api/jobs/${job}/reserved`, { tag, ref }),
    release: (tag: string) => ask<JobEdited>(`/api/reserved/${named(tag)}`, { method: 'DELETE' }),
    addJobPhoto: (job: number, picture: Blob, name?: string) =>
      ask<{ photo: Photo; edit: number }>(`/api/jobs/${job}/photos`, {
        method: 'POST',
        upload: picture,
        query: { name },
      }),
    /** Address of the report of a job. */
    jobReportUrl: (job: number, save = false) => `${baseUrl}/api/jobs/${job}/report${save ? '?save=1' : ''}`,
    jobsOfPart: async (tag: string) => (await ask<{ places: PlaceOfPart[] }>(`/api/parts/${named(tag)}/jobs`)).places,

    edits: async (limit?: number) => (await ask<{ edits: EditEntry[] }>('/api/edits', { query: { limit } })).edits,
    undo: (edit?: number) => post<Undone>('/api/undo', edit === undefined ? {} : { edit }),

    matchOffers: () => ask<MatchOffers>('/api/match/offers'),
    matchParts: (query: {
      readonly by: string
      readonly labels?: string | undefined
      readonly lot?: string | undefined
      readonly type?: string | undefined
      readonly most?: number | undefined
    }) => ask<MatchChoice>('/api/match/parts', { query }),

    stageParts: (query: {
      readonly near?: number | undefined
      readonly tag?: string | undefined
      readonly lot?: string | undefined
      readonly type?: string | undefined
      readonly from?: number | undefined
      readonly count?: number | undefined
    }) => ask<StageParts>('/api/stage/parts', { query }),

    search: (q: string, limit?: number) => ask<Found>('/api/search', { query: { q, limit } }),

    works: async () => (await ask<{ works: Work[] }>('/api/work')).works,
    startWork: (body: WorkBody) => post<Work>('/api/work', body),
    work: (id: string) => ask<Work>(`/api/work/${named(id)}`),
    cancelWork: (id: string) => ask<Work>(`/api/work/${named(id)}`, { method: 'DELETE' }),
    /** Address of a report, to open in a window of its own or to print. */
    reportUrl: ({ tags, lot, title, workings, save }: ReportAddress) =>
      `${baseUrl}${pathWith('/api/report', { part: tags, lot, title, workings, save: save === true ? '1' : undefined })}`,

    pairing: () => ask<Pairing>('/api/pairing'),
    pair: (code: string) => post<Pairing>('/api/pairing', { code }),

    /** Listens until the function it gives is called; the browser connects again by itself. */
    events: (listen: (event: ChangeEvent) => void, onState?: (isConnected: boolean) => void): (() => void) =>
      listenTo(`${baseUrl}/api/events`, listen, onState),
  }
}

/** What a report is asked for by address; very long selections are better made by `startWork`. */
export interface ReportAddress extends Pick<ReportWishes, 'lot' | 'title' | 'workings'> {
  readonly tags?: readonly string[]
  /** Lets the browser keep it as a file. */
  readonly save?: boolean
}
