import type { SpacingReport } from '../generated/SpacingReport'
import type { SuggestionReport } from '../generated/SuggestionReport'
import { basesOf } from '../spacing'
import { SLICE, type Surroundings, TELL_EVERY } from './survey-job'

/** What a job needs of the module's `SpacingJob`. */
export interface Spacer {
  step(count: number): boolean
  share(): number
  report(): SpacingReport | null
  suggestion(tolerance: number, bases: string): SuggestionReport | null
  free(): void
}

/** Reads the spacing of some letters in slices, until it is done or stopped. */
export async function space(
  job: number,
  spacer: Spacer,
  tolerance: number,
  stopped: () => boolean,
  around: Surroundings,
): Promise<void> {
  let told = around.now()
  try {
    let more = true
    while (more) {
      const end = around.now() + SLICE
      while (more && around.now() < end) more = spacer.step(1)
      if (around.now() - told >= TELL_EVERY) {
        told = around.now()
        around.post({ kind: 'spacing', job, share: spacer.share() })
      }
      await around.breathe()
      if (stopped()) return
    }
    const report = spacer.report()
    const letters = report?.letters.map((letter) => letter.character) ?? []
    const suggestion = spacer.suggestion(tolerance, basesOf(letters))
    if (report && suggestion) around.post({ kind: 'spaced', job, report, suggestion })
  } finally {
    spacer.free()
  }
}
