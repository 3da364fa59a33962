/** What a file is, by its name: fonts go on the stage, drawings into the redraw. */

export type DrawingKind = 'drawing' | 'glyph' | 'folder' | 'scan'

const endings: readonly (readonly [RegExp, DrawingKind])[] = [
  [/\.svg$/i, 'drawing'],
  [/\.glif$/i, 'glyph'],
  [/\.(?:ufo|zip|ufoz)$/i, 'folder'],
  [/\.(?:png|jpe?g)$/i, 'scan'],
]

export const drawingEndings = '.svg,.glif,.zip,.ufoz,.png,.jpg,.jpeg'

/** Nothing of a file that is taken for a font. */
export const drawingKind = (name: string): DrawingKind | null =>
  endings.find(([ending]) => ending.test(name))?.[1] ?? null

/** Whether pasted text is an SVG drawing. */
export const isSvgText = (text: string): boolean =>
  /^\s*(?:<\?xml[^>]*>\s*)?(?:<!--.*?-->\s*)*<svg[\s>]/is.test(text)
