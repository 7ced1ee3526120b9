export { type PairingOptions, pairingDefaults } from './pairing.ts'
export { type RunningServer, type ServerOptions, serverDefaults, startServer } from './server.ts'
