/** Room around a drawing, and its height, px. */
export const room = { left: 64, right: 14, top: 12, bottom: 30, height: 320 } as const
