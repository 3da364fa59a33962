/** What each lesson says. Where a figure is from stands beside it; what has no source says so. */

import type { LessonName } from '../generated/LessonName'

export interface LessonWords {
  readonly title: string
  /** Short, for the list. */
  readonly name: string
  readonly body: string
  readonly source: string
  /** What the slider's ends do. */
  readonly taken: string
  readonly doubled: string
}

const OURS = 'measured by this project on 363 faces of 27 open packages'

export const lessonWords: Readonly<Record<LessonName, LessonWords>> = {
  overshoot: {
    title: 'Why an O is drawn taller than an H',
    name: 'Rounds and points pass the line',
    body: 'A flat top meets its line over its whole breadth; a round one only touches it, and a point hardly does that. Set exactly on the baseline and the cap height, O and A look short. So they pass both lines by a little: this is their overshoot. A tight curve passes further than a flat one, and an alphabet made for large sizes needs less. Slide it out, step back, and see which letter shrinks.',
    source: `About 3% of the height for O and 5% for a pointed A: Peter Karow, Digital Formats for Typefaces, p. 26 (seen as two secondary pages quote it). In open faces O passes by 1.6% at the median and A is mostly cut flat (${OURS}).`,
    taken: 'on the line',
    doubled: 'doubled',
  },
  bars: {
    title: 'Why a bar is thinner than a stem',
    name: 'Bars are thinner than stems',
    body: 'The eye takes a level stroke for thicker than an upright one of the same measure. So the bars of H, E and T are drawn thinner than the stem, and a letter with both as thick looks as if it had been laid on its side. Here every bar is given the thickness of the stem, and the height of the letter kept.',
    source: `Common practice, no source for a figure. In open faces a bar has 82% of its stem at the median of all styles, nearer 90% in a sans (${OURS}).`,
    taken: 'as thick as the stem',
    doubled: 'thinned twice as much',
  },
  rounds: {
    title: 'Why the thick of a round is thicker than a stem',
    name: 'A round beside a straight stem',
    body: 'A stem is as thick over its whole height; a round stroke is so in one place only, and thins away from it. To look as heavy as the stem beside it, its thickest place must be a little heavier. Here the thick of each round is made exactly as thick as the straight stem.',
    source: `Common practice for the direction. In open faces the thickest of O has 104% of the stem of H at the median (${OURS}).`,
    taken: 'as thick as the stem',
    doubled: 'doubled',
  },
  joins: {
    title: 'Why strokes thin where they join',
    name: 'Strokes thin where they join',
    body: 'Where an arch springs from a stem, two strokes share a corner, and ink gathers there. Kept at their full thickness they clog to a dark spot, worst in small sizes and on poor paper. So the stroke is thinned towards its join and the notch is cut deeper. Here the joins are filled: the stroke keeps the thickness that it has further on.',
    source: 'Common practice, no source.',
    taken: 'filled',
    doubled: '',
  },
  halves: {
    title: 'Why the upper half is smaller than the lower',
    name: 'The upper half is smaller',
    body: 'Two equal halves one above the other look top-heavy. So B, E and S have their waist above the middle and an upper part that is lower and narrower; turn the letters over, and what nobody notices upright is plain to see. Here both halves are made as high and as wide as each other.',
    source:
      'The direction: public teaching pages on letterforms (seen), and common practice. No source for a figure.',
    taken: 'halves alike',
    doubled: 'doubled',
  },
  many: {
    title: 'Why W and M have thinner strokes',
    name: 'Letters of many strokes',
    body: 'W and M put four strokes where other letters put two. With strokes as heavy as theirs they become the darkest spots of the line. So their strokes are drawn thinner and the letter wider, until it is as dark as the rest: among the hardest letters to keep from being too bold or too thin. Here their strokes are made as heavy as the stem.',
    source: 'Common practice, no source.',
    taken: 'as heavy as the stem',
    doubled: 'doubled',
  },
  middle: {
    title: 'The middle that is not the middle',
    name: 'The middle that is not the middle',
    body: 'Ask anyone to put the bar of an H in the middle and they put it too high for the ruler: where the middle looks to be lies above where it is. Here the bar is brought to the measured middle, and with nothing else changed it seems to sag.',
    source:
      'The direction: public teaching pages on letterforms (seen), and common practice. No source for a figure.',
    taken: 'in the middle',
    doubled: 'twice as high',
  },
  bearings: {
    title: 'Why side bearings differ from side to side',
    name: 'Side bearings differ by side',
    body: 'The white between two letters should look as much everywhere. Beside a straight stem there is only the white that is added; beside a round there is more than that already, and beside an open or slanting side far more. So a stem brings the greatest side bearing, a round a smaller one, and A, V and T next to none. Here every side is given the same: the ruler is content and the line falls apart.',
    source:
      'H first, half of its counter a side, then O between two H, and the others from these: Walter Tracy, Letters of Credit (1986), pp. 71–80 (seen in secondary pages).',
    taken: 'all sides alike',
    doubled: 'differences doubled',
  },
  kerning: {
    title: 'Why kerning comes last',
    name: 'Kerning comes last',
    body: 'A side bearing acts on every pair that its letter stands in; a kern acts on one. So the bearings are set first, as well as they can be, and kerning mends what no bearing can: an A under the arm of a V. Whoever kerns before the bearings are right does the work hundreds of times over, and once more when a bearing changes. Here the kerning is taken out and the bearings left.',
    source:
      'Common practice, no source. That a pair adjustment is added to the advance widths: the OpenType specification, GPOS.',
    taken: 'without kerning',
    doubled: 'kerned twice',
  },
  points: {
    title: 'Why few points are better than many',
    name: 'Few points, well placed',
    body: 'A curve between two points is smooth by itself. Each point more is a place where it can bend the wrong way, and one more to be moved when the letter is corrected. A hand sets points at the extremes and where a curve changes its nature; an automatic trace sets them wherever it happens to be. Here the same outline is drawn anew as a trace would draw it, and you would hardly see it from afar.',
    source:
      'Points at the extremes of curves: Adobe Type 1 Font Format (1990), chapter 4 (from memory). That fewer are better: common practice, no source.',
    taken: 'traced closely',
    doubled: '',
  },
}

export const lessonNames = Object.keys(lessonWords) as [LessonName, ...LessonName[]]

/** What the slider says at a place. */
export function outWords(lesson: LessonName, out: number): string {
  const { taken, doubled } = lessonWords[lesson]
  if (out === 0) return 'as drawn'
  if (out === 1) return taken
  if (out === -1) return doubled
  const share = `${Math.round(Math.abs(out) * 100)}%`
  return out > 0 ? `${share} of the way to: ${taken}` : `${share} of the way to: ${doubled}`
}
