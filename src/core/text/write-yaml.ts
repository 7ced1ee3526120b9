import { stringify } from 'yaml'

/** Data as YAML text that `readYaml` reads again as the same. */
export const writeYaml = (data: unknown): string => stringify(data, { lineWidth: 0 })
