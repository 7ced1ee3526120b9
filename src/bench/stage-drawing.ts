import { FaultError } from '#core/fault'
import { levelsAt, makeStage } from '#core/stage'
import { stageDrawing } from '#report/stage'
import type { StageSeen } from './stage.ts'

/** Temperature of the air at which a stage is drawn, degC. */
const drawnAtC = 25

/**
 * A stage with its values, voltages and currents at 25 degC, as SVG.
 *
 * @throws {FaultError} `usage` where the position follows no template, so that there is no drawing of it
 */
export function drawStage({ answer: { position, parts } }: StageSeen): string {
  const svg = stageDrawing(position, parts, levelsAt(makeStage(position, parts), drawnAtC))
  if (svg !== undefined) return svg
  throw new FaultError({
    code: 'usage',
    problem: `There is no drawing of ${position.title}: it follows a netlist`,
    mend: 'Leave the drawing out, or describe it by one of germane stage --templates.',
  })
}
