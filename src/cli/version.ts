import packageJson from '#package' with { type: 'json' }

/** Version of this Germane, from package.json. */
export const version: string = packageJson.version
