import { api, queryClient, queryKeys } from '#web/live'
import { sender } from './sender.ts'

/** The one sender of this page; it goes on with whatever an earlier visit left behind. */
export const sending = sender(api, window.localStorage, (one) => {
  void queryClient.invalidateQueries({ queryKey: queryKeys.run(one.run) })
})
