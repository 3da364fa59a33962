/** What the figures mean, in the trade's words. */

import { figure, many, percent } from './figures'
import type { Deviation } from './generated/Deviation'
import type { Drawing } from './generated/Drawing'
import type { Embedding } from './generated/Embedding'
import type { Extremity } from './generated/Extremity'
import type { Form } from './generated/Form'
import type { GuideKind } from './generated/GuideKind'
import type { Measure } from './generated/Measure'
import type { Stroke } from './generated/Stroke'
import type { StrokeKind } from './generated/StrokeKind'

export const measureName: Record<Measure, string> = {
  weight: 'Weight',
  width: 'Width',
  height: 'Height',
}

const comparatives: Record<Measure, readonly [above: string, below: string]> = {
  weight: ['heavier', 'lighter'],
  width: ['wider', 'narrower'],
  height: ['taller', 'shorter'],
}

export const guideName: Record<GuideKind, string> = {
  baseline: 'Baseline',
  xHeight: 'x-height',
  capHeight: 'Cap height',
  ascender: 'Ascender',
  descender: 'Descender',
}

export const formName: Record<Form, string> = { flat: 'flat', round: 'round', pointed: 'pointed' }

const strokeNames: Record<StrokeKind, string> = {
  stem: 'Stem',
  bar: 'Bar',
  diagonal: 'Diagonal',
  curve: 'Curve',
}

export function strokeName(stroke: Stroke): string {
  const name = strokeNames[stroke.kind]
  return stroke.kind === 'diagonal' && stroke.angle != null ? `${name}, ${figure(stroke.angle, 0)}°` : name
}

/** A string of letters as people list them; the tail of a long list is counted. */
export function listed(letters: string, most = 8): string {
  const all = [...letters.replaceAll(/[\s,]/gu, '')]
  if (all.length <= most) return all.join(' ')
  return `${all.slice(0, most).join(' ')} and ${all.length - most} more`
}

/** "8 heavier than B D P suggest, 88". */
export function deviationWords(deviation: Deviation): string {
  const difference = deviation.value - deviation.expected
  const among = `${listed(deviation.beside) || 'the other letters'} suggest, ${figure(deviation.expected)}`
  if (Math.abs(difference) < 0.05) return `just what ${among}`
  const word = comparatives[deviation.measure][difference > 0 ? 0 : 1]
  const share = deviation.expected > 0 ? ` (${percent(Math.abs(difference) / deviation.expected)})` : ''
  return `${figure(Math.abs(difference))} ${word}${share} than ${among}`
}

/** True where letters of the font commonly lie that far from what is expected. */
export const isUsual = (deviation: Deviation): boolean =>
  Math.abs(deviation.value - deviation.expected) <= deviation.spread

/** "flat at 700", "round at 712, 12 past the cap height". */
export function extremityWords(end: Extremity | null): string {
  if (!end) return 'no ink'
  const at = `${formName[end.form]} at ${figure(end.y)}`
  if (end.overshoot == null) return at
  if (Math.abs(end.overshoot) < 0.05) return `${at}, on its guide`
  return `${at}, ${figure(Math.abs(end.overshoot))} ${end.overshoot > 0 ? 'past' : 'short of'} its guide`
}

/** Points drawn beside points needed. */
export function drawingRows(drawing: Drawing): [name: string, value: string][] {
  const need = ({ points, complete }: Drawing['withinHalf']) => (complete ? `${points}` : `${points} at most`)
  return [
    ['Drawn, on and off the curve', `${drawing.drawn}`],
    ['Needed within half a unit', need(drawing.withinHalf)],
    ['Needed within two units', need(drawing.withinTwo)],
  ]
}

/** More would not be read as a list; the stage shows each at its place. */
const MOST_FLAWS = 12

/** The flaws of a drawing, a sentence each; the tail of a long list is counted. */
export function flawWords(drawing: Drawing): string[] {
  const { flaws, flawsLeftOut, notLookedFor } = drawing
  if (flaws.length === 0 && notLookedFor.length === 0) return ['Nothing in the drawing asks for a look.']
  const words = flaws.slice(0, MOST_FLAWS).map((flaw) => flaw.sentence)
  const more = flaws.length + flawsLeftOut - words.length
  if (more > 0) words.push(`And ${many(more, 'more place', 'more places')}.`)
  if (notLookedFor.length > 0) {
    words.push('The outline is too large to look for overlaps and crossings in.')
  }
  return words
}

/** The embedding rights in a word or three; the sentence is the library's. */
export function rightsWords(embedding: Embedding | null): string {
  if (!embedding) return 'Embedding not stated'
  if (embedding.restricted) return 'May not be embedded'
  // OS/2 fsType: bit 3 is editable, bit 2 preview and print; of two, the wider right holds.
  if (embedding.bits & 0x8) return 'May be embedded and edited'
  if (embedding.bits & 0x4) return 'May be embedded to read and print'
  return 'May be embedded'
}

/** "Version 1.200" of "Version 1.200;hotconv 1.0.88": the rest is the maker's tools. */
export function versionWords(version: string | null): string | null {
  const first = version?.split(';')[0]?.trim()
  if (!first) return null
  return /^version/i.test(first) ? `Version ${first.replace(/^version\s*/i, '')}` : `Version ${first}`
}

/** "U+0052". */
export function codePoint(character: string): string {
  return [...character]
    .map((one) => `U+${(one.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`)
    .join(' ')
}
