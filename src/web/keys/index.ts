export { listenToKeys, type Shortcut, useShortcut, useShortcuts } from './keys.ts'
