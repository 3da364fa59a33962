/** The steps of a first review: what is said, and how the page tells that it was done. */

import { caps } from '../commands/keys'
import { command } from '../commands/registry'
import { findingKey } from '../findings'
import type { FindingKey } from '../generated/FindingKey'
import type { PageState } from '../state'

export interface Step {
  readonly title: string
  /** What to do and why, in few words. */
  readonly say: string
  /** The command whose key does it, if one does. */
  readonly key?: string
  /**
   * What it is done with, the first of these that is there: a selector of a part
   * of the sheet and one inside that part.
   */
  readonly places: readonly (readonly [part: string, inside: string])[]
  /** Whether the reviewer has just done it: as it is now, as the step began, and a moment ago. */
  done(now: PageState, then: PageState, before: PageState): boolean
}

const isFinding = (one: FindingKey, other: FindingKey | null): boolean =>
  other !== null && findingKey(one) === findingKey(other)

const verdicts = (state: PageState): number =>
  state.review.reviews.filter((one) => one.verdict !== null).length

const notes = (state: PageState): string =>
  state.review.reviews.map((one) => `${one.letter} ${one.cause} ${one.note}`).join('\n')

const noted = (state: PageState): boolean => state.review.reviews.some((one) => one.note.trim() !== '')

export const steps: readonly Step[] = [
  {
    title: 'Look at the surest finding',
    say: 'What stands out is listed, the surest first. Choose the first of the list.',
    key: 'next-finding',
    places: [['findings-panel', '.choose']],
    done: (now) => now.stage?.finding != null,
  },
  {
    title: 'See one among its neighbours',
    say: 'Go on to the next: its letter stands between others to hold it against, and each carries its own value.',
    key: 'next-finding',
    places: [['findings-panel', '.finding:not(.shown) .choose']],
    done: (now, then) =>
      now.stage?.finding != null &&
      now.stage.items.length > 1 &&
      !isFinding(now.stage.finding, then.stage?.finding ?? null),
  },
  {
    title: 'Bring them together',
    say: 'Figures tell how much; your eye decides. Drag a neighbour nearer, or choose it with N and use the arrow keys.',
    places: [['stage-view', 'canvas']],
    done: (now, then) =>
      now.stage?.items.some(
        (item) => item.moved !== (then.stage?.items.find(({ id }) => id === item.id)?.moved ?? null),
      ) ?? false,
  },
  {
    title: 'Say how strict to be',
    say: 'Move the slider under “What stands out”. The words below it tell how many false alarms to expect.',
    places: [['findings-panel', 'input[type="range"]']],
    done: (now, then) => now.allowance !== then.allowance,
  },
  {
    title: 'Say what you think',
    say: 'Go to another finding. Is it a fault, or meant so? Press one of the four words below the list.',
    key: 'next-finding',
    places: [
      ['desk-review', '.words button'],
      ['findings-panel', '.choose'],
    ],
    done: (now, then) => verdicts(now) > verdicts(then),
  },
  {
    title: 'Leave the artist a line',
    say: 'With a finding on the stage, write a note below the words, as you would in a letter.',
    key: 'note',
    places: [
      ['desk-review', 'textarea'],
      ['findings-panel', '.choose'],
    ],
    done: (now, then) => noted(now) && notes(now) !== notes(then),
  },
  {
    title: 'Open the sheet',
    say: 'What you said is set as a page to send back. Look at it, then close it.',
    key: 'handback',
    places: [['file-line', 'command-button[name="handback"]']],
    // The page behind it cannot be read while it lies there.
    done: (now, _then, before) => before.review.room === 'handback' && now.review.room === null,
  },
]

export const END = {
  title: 'That is a review',
  say: 'What you said stays with the sample. Now open a font of yours. The guide can be had again under Keys.',
}

/** Where another font lies on the stage: its owner is not to lose it unasked. */
export const ELSEWHERE = {
  title: 'The guide goes through the sample',
  say: 'Your font leaves the stage for it. What you said of your font is kept, and it opens again from its file.',
}

/** The keys of a step, as they are printed; nothing where no key does it. */
export const keyOf = ({ key }: Step): readonly string[] => {
  const first = key && command(key).keys[0]
  return first ? caps(first) : []
}
