/** Records for the desk's tests. */

import type { FindingReport } from '../generated/FindingReport'
import type { FontRecord, ReadingRecord, ReviewRecord, RevisionRecord } from './schema'
import { reviewId, revisionId } from './schema'

const changed = '2026-05-01T10:00:00.000Z'

export const review = (letter: string, change: Partial<ReviewRecord> = {}): ReviewRecord => {
  const { font = 'f', cause = null } = change
  return {
    id: reviewId(font, letter, cause),
    font,
    letter,
    cause,
    verdict: null,
    note: '',
    marks: [],
    drawing: '',
    changed,
    rev: 1,
    ...change,
  }
}

export const finding = (letter: string, change: Partial<FindingReport> = {}): FindingReport => ({
  letter,
  glyph: 1,
  cause: 'width',
  value: 500,
  expected: 450,
  low: 440,
  high: 460,
  difference: 50,
  spreads: 4,
  byChance: 0.01,
  beside: 'no',
  sentence: `${letter} is 50 units too wide.`,
  ...change,
})

export const font = (id: string, change: Partial<FontRecord> = {}): FontRecord => ({
  id,
  family: 'Brigaroe',
  title: 'Brigaroe',
  contributor: 'Ines',
  plan: { languages: [], sets: [], text: 'ABC' },
  planned: 'ABC',
  due: null,
  kind: 'plain',
  begun: '2026-04-01',
  note: '',
  removed: null,
  changed,
  rev: 1,
  ...change,
})

export const revision = (
  of: string,
  received: string,
  change: Partial<RevisionRecord> = {},
): RevisionRecord => ({
  id: revisionId(of, received),
  font: of,
  fingerprint: received,
  fileName: 'a.otf',
  received: `${received}T10:00:00.000Z`,
  answered: `${received}T12:00:00.000Z`,
  planned: 60,
  drawn: 30,
  settled: 20,
  open: 3,
  changed,
  rev: 1,
  ...change,
})

export const reading = (
  of: string,
  received: string,
  change: Partial<ReadingRecord> = {},
): ReadingRecord => ({
  id: revisionId(of, received),
  font: of,
  unitsPerEm: 1000,
  heights: [],
  letters: { A: '00000001' },
  findings: [],
  drawings: {},
  features: [],
  changed,
  rev: 1,
  ...change,
})
