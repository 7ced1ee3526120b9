import fieldEffect from './types/field-effect.json' with { type: 'json' }
import germaniumDiodes from './types/germanium-diodes.json' with { type: 'json' }
import germaniumJapanese from './types/germanium-japanese.json' with { type: 'json' }
import germaniumNpnSmall from './types/germanium-npn-small.json' with { type: 'json' }
import germaniumPnpAmerican from './types/germanium-pnp-american.json' with { type: 'json' }
import germaniumPnpEuropean from './types/germanium-pnp-european.json' with { type: 'json' }
import germaniumPnpRadio from './types/germanium-pnp-radio.json' with { type: 'json' }
import germaniumPower from './types/germanium-power.json' with { type: 'json' }
import germaniumSoviet from './types/germanium-soviet.json' with { type: 'json' }
import schottkyDiodes from './types/schottky-diodes.json' with { type: 'json' }
import siliconJapanese from './types/silicon-japanese.json' with { type: 'json' }
import siliconNpnEuropean from './types/silicon-npn-european.json' with { type: 'json' }
import siliconNpnMetal from './types/silicon-npn-metal.json' with { type: 'json' }
import siliconNpnPlastic from './types/silicon-npn-plastic.json' with { type: 'json' }
import siliconNpnPower from './types/silicon-npn-power.json' with { type: 'json' }
import siliconPnpEuropean from './types/silicon-pnp-european.json' with { type: 'json' }
import siliconPnpMetal from './types/silicon-pnp-metal.json' with { type: 'json' }
import siliconPnpPlastic from './types/silicon-pnp-plastic.json' with { type: 'json' }
import siliconPnpPower from './types/silicon-pnp-power.json' with { type: 'json' }
import siliconRectifiers from './types/silicon-rectifiers.json' with { type: 'json' }
import siliconSignalDiodes from './types/silicon-signal-diodes.json' with { type: 'json' }
import thyristors from './types/thyristors.json' with { type: 'json' }
import triacs from './types/triacs.json' with { type: 'json' }
import unijunction from './types/unijunction.json' with { type: 'json' }
import zener1n746a from './types/zener-1n746a.json' with { type: 'json' }
import zener1n746a1 from './types/zener-1n746a-1.json' with { type: 'json' }
import zener1n957b from './types/zener-1n957b.json' with { type: 'json' }
import zener1n4370a from './types/zener-1n4370a.json' with { type: 'json' }
import zener1n4728a from './types/zener-1n4728a.json' with { type: 'json' }
import zenerBzx79c from './types/zener-bzx79c.json' with { type: 'json' }

/** The records of every family group, in the order of their files. */
export const allTypes: readonly unknown[] = [
  fieldEffect,
  germaniumDiodes,
  germaniumJapanese,
  germaniumNpnSmall,
  germaniumPnpAmerican,
  germaniumPnpEuropean,
  germaniumPnpRadio,
  germaniumPower,
  germaniumSoviet,
  schottkyDiodes,
  siliconJapanese,
  siliconNpnEuropean,
  siliconNpnMetal,
  siliconNpnPlastic,
  siliconNpnPower,
  siliconPnpEuropean,
  siliconPnpMetal,
  siliconPnpPlastic,
  siliconPnpPower,
  siliconRectifiers,
  siliconSignalDiodes,
  thyristors,
  triacs,
  unijunction,
  zener1n4370a,
  zener1n4728a,
  zener1n746a,
  zener1n746a1,
  zener1n957b,
  zenerBzx79c,
].flat()
