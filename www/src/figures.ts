/** How figures are written on the page: at most one decimal, a real minus sign, no exponent. */

const MINUS = '−'
/** Stands where a figure could not be taken. */
export const NONE = '–'

export function figure(value: number | null | undefined, digits = 1): string {
  if (value == null || !Number.isFinite(value)) return NONE
  const text = Number(value.toFixed(digits)).toString()
  if (text === '0' || text === '-0') return '0'
  return text.replace('-', MINUS)
}

/** With its sign, for a difference. */
export function signed(value: number | null | undefined, digits = 1): string {
  const text = figure(value, digits)
  return text === NONE || text === '0' || text.startsWith(MINUS) ? text : `+${text}`
}

const counts = new Intl.NumberFormat('en-GB')

export const count = (value: number): string => counts.format(value)

/** "1 glyph", "2 glyphs". */
export const many = (value: number, one: string, more = `${one}s`): string =>
  `${counts.format(value)} ${value === 1 ? one : more}`

/** A share as a percentage of whole numbers, or of one decimal below 10%. */
export function percent(share: number): string {
  const value = share * 100
  return `${figure(value, Math.abs(value) < 10 ? 1 : 0)}%`
}
