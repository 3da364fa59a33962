/** What the trial of the eye asks and says. */

import { figure } from '../figures'
import type { EyeFit } from '../generated/EyeFit'
import type { EyeMatter } from '../generated/EyeMatter'
import type { EyeSetup } from '../generated/EyeSetup'

export interface EyeWords {
  readonly name: string
  readonly question: string
  /** The answer that names the changed letter (or stroke, or half), and the other. */
  readonly larger: string
  readonly other: string
  /** What the level is. */
  readonly level: string
  readonly equal: string
  readonly handbook: string
}

export const eyeMatters: readonly EyeMatter[] = ['taller', 'thicker', 'heavier', 'lower']

export const eyeWords: Readonly<Record<EyeMatter, EyeWords>> = {
  taller: {
    name: 'Which looks taller: the round letter or the straight one?',
    question: 'Which looks taller?',
    larger: 'the round one',
    other: 'the straight one',
    level: 'overshoot at top and foot, % of the height',
    equal: 'The round letter looks as tall as the straight one to you with an overshoot of',
    handbook:
      'Handbook: about 3% (Peter Karow, Digital Formats for Typefaces, p. 26, as secondary pages quote it).',
  },
  thicker: {
    name: 'Which looks thicker: the level stroke or the upright one?',
    question: 'Which looks thicker?',
    larger: 'the level stroke',
    other: 'the upright stroke',
    level: 'bar, % of the stem',
    equal: 'The level stroke looks as thick as the upright one to you at',
    handbook:
      'Handbook: thinner, with no figure that we know of (common practice). Open faces: 82% at the median of all styles, measured by this project.',
  },
  heavier: {
    name: 'Which looks heavier: the round stroke or the straight one?',
    question: 'Which stroke looks heavier?',
    larger: 'the round one',
    other: 'the straight one',
    level: 'round at its thickest, % of the stem',
    equal: 'The round stroke looks as heavy as the straight one to you at',
    handbook:
      'Handbook: heavier, with no figure that we know of (common practice). Open faces: 104% at the median, measured by this project.',
  },
  lower: {
    name: 'Which looks larger: the lower half or the upper?',
    question: 'Which half looks larger?',
    larger: 'the lower half',
    other: 'the upper half',
    level: 'middle of the bar above the measured middle, % of the height',
    equal: 'Both halves look alike to you with the bar above the measured middle by',
    handbook: 'Handbook: above the middle, with no figure that we know of (common practice).',
  },
}

/** The point of equality with its interval, in a sentence. */
export function equalWords(setup: EyeSetup, fit: EyeFit): string {
  const { equal } = eyeWords[setup.matter]
  const { low, high } = fit
  if (low === null || high === null) {
    const side =
      low === null && high === null ? 'either side' : low === null ? 'the lower side' : 'the upper side'
    return `Your answers do not say where the two look alike to you: on ${side} the interval goes on beyond what was shown (${figure(setup.least)}% to ${figure(setup.most)}%).`
  }
  return `${equal} ${figure(fit.equal)}% (95% interval: ${figure(low)}% to ${figure(high)}%).`
}

/** How that stands to the font's own figure. */
export function ownWords(setup: EyeSetup, fit: EyeFit): string {
  const own = `This font: ${figure(setup.own)}%`
  const { low, high } = fit
  if (low === null || high === null) return `${own}.`
  const side = setup.own < low ? 'below' : setup.own > high ? 'above' : 'within'
  return `${own}, ${side} your interval${side === 'within' ? ': your answers and the font do not contradict each other' : ''}.`
}

/** What a few dozen answers can tell, and what they cannot. */
export const HONEST =
  'Sixty answers find the place where two things look alike to within about the width of the interval, and no nearer: on another day, screen or distance it will move. The interval is made so that it holds the true place of 95 in 100 people who answer steadily; that was tried on 1,000 simulated observers. It is one eye, on one letter. It neither proves the font wrong nor the handbook right.'
