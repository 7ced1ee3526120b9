import fc from 'fast-check'
import { test, vi } from 'vitest'
import { jobExampleYaml, readJob } from '#core/job'
import { anyText, spoiled } from './spoiled.ts'
import { tryAll } from './take.ts'

vi.setConfig({ testTimeout: 180_000 })

const withText = `${jobExampleYaml}  TR5:
    circuit: |
      stage: fixed-bias
      polarity: PNP
      supply: 9 V
      values: { RB: 1 Mohm, RC: 4.7 kohm }
      parts: { Q1: OC71 }
    reserved: [S-1, S-2]
`

test('job files: refused with sentences, or read as jobs', () => {
  const some = fc.oneof({ weight: 6, arbitrary: spoiled(jobExampleYaml, withText) }, { weight: 1, arbitrary: anyText })
  tryAll(some, 'documents', (text) => readJob(text, 'job.yaml'))
})
