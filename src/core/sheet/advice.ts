import type { Advice } from './sheet.ts'

/** What a step may show that it should not, and what to do. Facts of the trade (common practice). */
export const advices = {
  wrongWay: {
    symptom: 'the needle goes the wrong way',
    advice:
      'Switch off. Check the polarity switch, then the lead order: some makers sold the same type with reversed leads.',
  },
  noDeflection: {
    symptom: 'no deflection at all',
    advice: 'Look for a lead in the wrong socket, an open lead inside the part, or a flat cell.',
  },
  noNull: {
    symptom: 'the needle cannot be nulled',
    advice:
      'The gain lies outside this span: try the next, and set the collector current again. If no span does it, leakage outweighs the base current: take the leakage-corrected way, or a higher collector current within the limits.',
  },
  drifting: {
    symptom: 'the reading drifts',
    advice:
      'The part warms itself. Bring the bias to zero, let it cool, and read sooner. A climbing leakage: switch off.',
  },
  pegged: {
    symptom: 'the needle goes hard against its stop',
    advice:
      'Switch off at once. Either the part is shorted or the range is too low: check for a short, then take the next higher range.',
  },
  noCurrent: {
    symptom: 'the collector current cannot be reached',
    advice: 'Gain too low, base open, or base and emitter swapped. Do not push the base current past the value given.',
  },
  ownCurrent: {
    symptom: 'collector current flows with the bias at zero',
    advice: 'That is leakage. It is in every reading of gain: note it, or the gain comes out too high.',
  },
  bothWays: {
    symptom: 'it conducts both ways',
    advice: 'A short, or a resistor or coil across it: test the part out of its circuit.',
  },
  light: {
    symptom: 'the leakage changes when you move your hand',
    advice: 'A glass part with chipped paint sees light. Cover it and read again.',
  },
  nearZero: {
    symptom: 'the needle hardly moves',
    advice:
      'A good sign for a leakage. Go down one range at a time as long as the needle stays on the scale, and read there.',
  },
  wrongMaterial: {
    symptom: 'the voltage is near 0.2 V or near 0.65 V where you expect the other',
    advice:
      'Germanium shows about 0.1 V to 0.3 V, silicon 0.55 V to 0.75 V. The part may not be what is printed on it.',
  },
} as const satisfies Readonly<Record<string, Advice>>

export type AdviceName = keyof typeof advices

/** Advice by name, in order. */
export const advise = (...names: readonly AdviceName[]): readonly Advice[] => names.map((n) => advices[n])
