/** Two accounts of one thing made one, with nothing of either lost. */

import type { FontRecord, Mark, ReadingRecord, ReviewRecord, RevisionRecord, Said } from './schema'
import { verdictName } from './words'

/** One note that says what both say. */
export function mergeNotes(one: string, other: string): string {
  if (one === other || other === '' || one.includes(other)) return one
  if (one === '' || other.includes(one)) return other
  return `${one}\n\n${other}`
}

const sameMark = (a: Mark, b: Mark): boolean => JSON.stringify(a) === JSON.stringify(b)

const without = (marks: readonly Mark[], others: readonly Mark[]): Mark[] =>
  marks.filter((mark) => !others.some((other) => sameMark(mark, other)))

export const mergeMarks = (one: readonly Mark[], other: readonly Mark[]): Mark[] => [
  ...one,
  ...without(other, one),
]

const later = <T extends { changed: string }>(one: T, other: T): [newer: T, older: T] =>
  other.changed > one.changed ? [other, one] : [one, other]

/** Marks that a step drew come to those that are there, and those that it took away go. */
function changedMarks(current: readonly Mark[], before: readonly Mark[], after: readonly Mark[]): Mark[] {
  if (JSON.stringify(current) === JSON.stringify(before)) return [...after]
  return mergeMarks(without(current, without(before, after)), without(after, before))
}

/**
 * A step from one thing said to another, taken where another tab may have said
 * something meanwhile: what the step leaves as it was stays as it is there, and
 * a note that both have written says what both say.
 */
export function changedOnly(current: Said, before: Said, after: Said): Said {
  return {
    verdict: after.verdict === before.verdict ? current.verdict : after.verdict,
    note:
      after.note === before.note
        ? current.note
        : current.note === before.note
          ? after.note
          : mergeNotes(after.note, current.note),
    marks: changedMarks(current.marks, before.marks, after.marks),
    drawing: after.drawing === before.drawing ? current.drawing : after.drawing,
  }
}

/** The later verdict stands; an earlier one that said something else is told in the note. */
export function mergeReviews(one: ReviewRecord, other: ReviewRecord): ReviewRecord {
  const [newer, older] = later(one, other)
  const overruled =
    older.verdict !== null && newer.verdict !== null && older.verdict !== newer.verdict
      ? `(${older.changed.slice(0, 10)}: ${verdictName[older.verdict].toLowerCase()})`
      : ''
  return {
    ...newer,
    verdict: newer.verdict ?? older.verdict,
    note: mergeNotes(mergeNotes(newer.note, older.note), overruled),
    marks: mergeMarks(newer.marks, older.marks),
    rev: Math.max(one.rev, other.rev),
  }
}

/** What one side left blank, the other fills in; of two values the later stands, and its note has both. */
export function mergeFonts(one: FontRecord, other: FontRecord): FontRecord {
  const [newer, older] = later(one, other)
  const said = (
    [
      ['contributor', older.contributor, newer.contributor],
      ['title', older.title, newer.title],
      ['due', older.due ?? '', newer.due ?? ''],
    ] as const
  ).filter(([, before, after]) => before !== '' && after !== '' && before !== after)
  const overruled = said.map(([what, before]) => `(before: ${what} ${before})`).join('\n')
  const emptyPlan = newer.plan.languages.length + newer.plan.sets.length + newer.plan.text.length === 0
  return {
    ...newer,
    contributor: newer.contributor || older.contributor,
    title: newer.title || older.title,
    due: newer.due ?? older.due,
    plan: emptyPlan ? older.plan : newer.plan,
    planned: emptyPlan ? older.planned : newer.planned,
    note: mergeNotes(mergeNotes(newer.note, older.note), overruled),
    // A font that either side still works on stays on the shelf.
    removed: one.removed === null || other.removed === null ? null : newer.removed,
    rev: Math.max(one.rev, other.rev),
  }
}

/** A revision is what a file held: the later count of it stands. */
export function mergeRevisions(one: RevisionRecord, other: RevisionRecord): RevisionRecord {
  const [newer, older] = later(one, other)
  return {
    ...newer,
    received: [one.received, other.received].toSorted()[0] ?? one.received,
    answered: newer.answered ?? older.answered,
    rev: Math.max(one.rev, other.rev),
  }
}

export function mergeReadings(one: ReadingRecord, other: ReadingRecord): ReadingRecord {
  const [newer, older] = later(one, other)
  return { ...newer, drawings: { ...older.drawings, ...newer.drawings }, rev: Math.max(one.rev, other.rev) }
}
