/**
 * What the review desk keeps, and how: the schema of its database and of the
 * files that it writes and reads.
 *
 * # The database
 *
 * IndexedDB, name `counterpoise-desk`, version {@link DATABASE_VERSION}.
 *
 * | store       | key           | what a record is                                             |
 * |-------------|---------------|--------------------------------------------------------------|
 * | `fonts`     | `id`          | a font on the shelf: who, what is planned, by when           |
 * | `revisions` | `id`          | a file that came in for it, and how much of it was settled   |
 * | `readings`  | `id`          | what the lab found in that file: letters, findings, drawings |
 * | `reviews`   | `id`          | the reviewer's word on a letter or a finding                 |
 * | `files`     | `fingerprint` | the file itself, where the reviewer wishes it kept           |
 *
 * `revisions`, `readings` and `reviews` are indexed by `font`, `revisions` by `fingerprint` too. A revision and its
 * reading share an id: the shelf reads the small ones of all fonts, and the large
 * one of a single font only when it is looked at.
 *
 * A font's `id` is the fingerprint of the first file that came in for it. Words
 * about a file that is on no shelf are kept under its fingerprint, so that they
 * are that font's words as soon as it is put on the shelf.
 *
 * `rev` counts a record's changes. A change is made to the record as it stands in
 * the database, read and written in one transaction: another tab's change of
 * another field stays. Where both changed a note, both notes stay (`merge.ts`).
 *
 * # The file
 *
 * A zip with `desk.json` in it ({@link Archive}) and, for each file that is kept,
 * `fonts/<fingerprint>`. `format` is always `counterpoise-desk`; `version` is
 * {@link SCHEMA_VERSION}. Of an older version, `upgrade` (in `archive.ts`) makes
 * the present one; a newer one is refused.
 *
 * | version | what changed                                                             |
 * |---------|--------------------------------------------------------------------------|
 * | 1       | letters and causes that are meant so, by fingerprint, in local storage   |
 * | 2       | the desk                                                                 |
 *
 * Days are `YYYY-MM-DD`, instants ISO 8601 in UTC, lengths font units with y up.
 */

import type { InferOutput } from 'valibot'
import type * as shape from './shape'

export const DATABASE = 'counterpoise-desk'
export const DATABASE_VERSION = 1
export const FORMAT = 'counterpoise-desk'
export const SCHEMA_VERSION = 2

/** What is to be drawn: languages by their CLDR codes, character sets, and a list of one's own. */
export type Plan = InferOutput<typeof shape.plan>

/**
 * A font on the shelf. `planned` is its plan as characters, worked out when the
 * plan was made; `removed` says when it was taken off the shelf.
 */
export type FontRecord = InferOutput<typeof shape.font>

/** A file that came in: counted are planned letters, and of findings those at the usual strictness. */
export type RevisionRecord = InferOutput<typeof shape.revision>

/**
 * What the lab read in a revision: each letter with a digest of its outline, by
 * which a redrawn one is known; every finding; and the drawings of the letters
 * that have one, to be set beside their redraws.
 */
export type ReadingRecord = InferOutput<typeof shape.reading>

/**
 * The reviewer's word. `cause` is null where it is about the letter as a whole;
 * `drawing` is the digest of the outline that it was said of.
 */
export type ReviewRecord = InferOutput<typeof shape.review>

/** What of a review is said, and can be taken back. */
export type Said = Pick<ReviewRecord, 'verdict' | 'note' | 'marks' | 'drawing'>

export type Verdict = NonNullable<ReviewRecord['verdict']>

/**
 * A mark on a letter, in the letter's own units from its origin on the baseline.
 * A circle is about `from`, through `to`; an arrow points to `to`.
 */
export type Mark = InferOutput<typeof shape.mark>

export type Drawing = InferOutput<typeof shape.drawing>

export interface FileRecord extends InferOutput<typeof shape.file> {
  readonly bytes: ArrayBuffer
}

/** Everything, as it is written to a file. */
export type Archive = InferOutput<typeof shape.archive>

export const reviewId = (font: string, letter: string, cause: string | null): string =>
  `${font}/${letter}/${cause ?? ''}`

export const revisionId = (font: string, fingerprint: string): string => `${font}/${fingerprint}`

export const now = (): string => new Date().toISOString()
export const today = (): string => now().slice(0, 10)
