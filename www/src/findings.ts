/** What stands out of the open font: which findings are listed, and in what words. */

import { figure, many } from './figures'
import type { Cause } from './generated/Cause'
import type { Deviation } from './generated/Deviation'
import type { FindingKey } from './generated/FindingKey'
import type { FindingReport } from './generated/FindingReport'
import type { JudgementReport } from './generated/JudgementReport'

/** How far the letters have been judged. */
export type Judgement =
  | { readonly kind: 'none' }
  | { readonly kind: 'judging' }
  | { readonly kind: 'done'; readonly report: JudgementReport }
  | { readonly kind: 'failed'; readonly sentence: string }

/** False alarms that a sound alphabet shows, from the strictest proof to the faintest doubt. */
export const allowances: readonly number[] = [0.1, 0.25, 0.5, 1, 2, 4, 8]
export const usualAllowance = 1

/** What a finding is known by, whatever else is found beside it. */
export const findingKey = ({ glyph, cause }: FindingKey): string => `${glyph} ${cause}`

export const isSame = (finding: FindingReport, other: FindingKey | null | undefined): boolean =>
  other != null && findingKey(finding) === findingKey(other)

/** Every finding, what is meant so among them. */
export const everyFinding = (judgement: Judgement): FindingReport[] =>
  judgement.kind === 'done' ? [...judgement.report.findings, ...judgement.report.meant] : []

/** The findings that are listed, the worst first: those rare enough. What is meant so is no finding. */
export function standing(judgement: Judgement, allowance: number): FindingReport[] {
  if (judgement.kind !== 'done') return []
  return judgement.report.findings.filter((finding) => finding.byChance <= allowance)
}

/** How a letter stands to the others, measure by measure; nothing until the font is judged. */
export function deviationsOf(judgement: Judgement, glyph: number | null): readonly Deviation[] {
  if (judgement.kind !== 'done') return []
  return judgement.report.letters.find((letter) => letter.glyph === glyph)?.deviations ?? []
}

/** What the person has said is meant so, however rare it is. */
export const meantSo = (judgement: Judgement): readonly FindingReport[] =>
  judgement.kind === 'done' ? judgement.report.meant : []

export const causeName: Record<Cause, string> = {
  width: 'width',
  strokes: 'thickness of strokes',
  uprights: 'thickness of upright strokes',
  levels: 'thickness of level strokes',
  overshoot: 'overshoot',
  left: 'left bearing',
  right: 'right bearing',
  pair: 'pair of stems',
  raised: 'place on the baseline',
  points: 'points',
}

/** What a setting of the slider means. */
export function allowanceWords(allowance: number): string {
  const alarms = `${figure(allowance, 2)} false ${allowance === 1 ? 'alarm' : 'alarms'}`
  const other = allowance < 1 ? `: one in ${figure(1 / allowance, 0)} such alphabets` : ''
  return `At this setting a sound alphabet of 52 letters shows about ${alarms}${other}.`
}

/** Rarer than this is told as rarer: no count of fonts bears out more. */
const RAREST = 1000

/** How rare a letter that shows as much is in sound alphabets: `byChance` is how many of 52 do. */
export function rarityWords(byChance: number): string {
  if (byChance * RAREST < 1) return `fewer than one such in ${RAREST} sound alphabets`
  if (byChance < 0.67) {
    const alphabets = Number((1 / byChance).toPrecision(1 / byChance < 10 ? 1 : 2))
    return `one such in ${alphabets} sound alphabets`
  }
  if (byChance < 1.5) return 'about one such in every sound alphabet'
  return `about ${figure(byChance, 0)} such in every sound alphabet`
}

/** How many were found, to be read and to be heard. */
export function countWords(judgement: Judgement, listed: number): string {
  if (judgement.kind === 'judging') return 'Judging the letters…'
  if (judgement.kind !== 'done') return ''
  return listed === 0 ? 'No findings' : many(listed, 'finding')
}

/** Why the list is empty, and what that means. */
export function emptyWords(judgement: Judgement, allowance: number): string {
  const left = standing(judgement, Number.POSITIVE_INFINITY).length
  const said = meantSo(judgement).some((finding) => finding.byChance <= allowance)
  const first = said
    ? 'What stands out at this strictness is meant so.'
    : 'No letter is farther from what the others suggest than letters of sound alphabets are.'
  if (left === 0) return first
  return `${first} With more doubt ${left === 1 ? 'one letter shows' : `${left} findings show`} a small difference.`
}
