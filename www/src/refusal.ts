import type { Refusal } from './generated/Refusal'

/** True for what the lab throws on purpose; anything else is a crash. */
export function isRefusal(error: unknown): error is Refusal {
  return (
    typeof error === 'object' &&
    error !== null &&
    !(error instanceof Error) &&
    'sentence' in error &&
    typeof error.sentence === 'string'
  )
}
