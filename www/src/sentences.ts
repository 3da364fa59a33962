/** What the page says when something cannot be done. */

import { isRefusal } from './refusal'

export const BROKEN =
  'The lab could not start in this browser. Reload the page; if that does not help, try a newer browser.'
export const GONE =
  'The lab stumbled over that and could not be set up again. Reload the page and open your font once more.'
export const STUMBLED =
  'The lab stumbled over that and has set the stage up again. Your font is still here; the steps to undo are not.'
export const NO_KERNING =
  'The part of the lab that sets kerned text could not be loaded. The letters stand by their side bearings; try again later.'
export const NO_READING =
  'The part of the lab that sets text from right to left could not be loaded. The letters stand from left to right; try again later.'
export const NO_WORDS = 'No pair asks for a look, or no common word holds one that does.'
export const NO_LIST = 'The list of words could not be fetched. Try again later.'
export const NO_MARGIN =
  'The part of the page that tells what the lab found could not be fetched. Load the page again.'
export const NO_SAMPLE = 'The sample could not be fetched. Drop a font of your own.'
export const UNJUDGED =
  'The letters of this font could not be judged. All that is measured of them is here; to try once more, open the font again.'
export const TOO_LARGE =
  'The measures of this font are larger than the page can hold. The command line writes them: counterpoise measure --all --json.'
const UNREADABLE = 'could not be read. It may have been moved or is still being written: try again.'

/** What to say of a file that could not be opened. */
export function sentenceOf(error: unknown): string {
  if (isRefusal(error)) return error.sentence
  return error instanceof DOMException ? `This file ${UNREADABLE}` : STUMBLED
}
