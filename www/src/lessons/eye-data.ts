/** A trial's answers as files: JSON with everything, CSV with one line an answer. */

import type { EyeResult } from '../generated/EyeResult'
import type { EyeSetup } from '../generated/EyeSetup'

export const FORMAT = 'counterpoise-eye'
export const VERSION = 1

export interface TrialData {
  readonly setup: EyeSetup
  readonly result: EyeResult
  /** Milliseconds that each answer took. */
  readonly took: readonly number[]
  readonly font: string
}

const columns = ['number', 'staircase', 'level', 'second', 'larger', 'turned', 'milliseconds'] as const

export function toJson({ setup, result, took, font }: TrialData): string {
  const answers = result.answers.map((answer, at) => ({
    number: at + 1,
    ...answer,
    milliseconds: took[at] ?? null,
  }))
  const { fit, settled, levels } = result
  const document = {
    format: FORMAT,
    version: VERSION,
    rule: 'Two interleaved transformed staircases, two down and one up and its mirror image (Levitt 1971)',
    units: 'levels in per cent',
    font,
    ...setup,
    answers,
    levels,
    settledAt: settled,
    fit: fit && {
      curve: '0.02 + 0.96 / (1 + exp(-(level - equal) / spread))',
      interval: 'profile likelihood, 95%',
      equal: fit.equal,
      low: fit.low,
      high: fit.high,
      spread: fit.spread,
    },
  }
  return `${JSON.stringify(document, null, 2)}\n`
}

/** RFC 4180: lines end in CR LF. */
export function toCsv({ result, took }: TrialData): string {
  const lines = result.answers.map((answer, at) => [
    at + 1,
    answer.staircase,
    answer.level,
    answer.second ? 1 : 0,
    answer.larger ? 1 : 0,
    answer.turned ? 1 : 0,
    Math.round(took[at] ?? 0),
  ])
  return [columns, ...lines].map((line) => `${line.join(',')}\r\n`).join('')
}
