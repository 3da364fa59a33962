import { describe, expect, it } from 'vitest'
import css from './tokens.css?raw'

/*
 * The palette held to what it promises. Conversions: OKLab by Ottosson (2020);
 * contrast by WCAG 2.2; colour-blindness by the matrices of Machado, Oliveira
 * and Fernandes (2009) for the full loss of one kind of cone, on linear RGB.
 */

type Triple = readonly [number, number, number]

function oklch(text: string): Triple {
  const [l, c, h] = text.split(/[ /]+/).map(Number)
  if (l === undefined || c === undefined || h === undefined) throw new Error(`not a colour: ${text}`)
  const hue = (h * Math.PI) / 180
  return [l, c * Math.cos(hue), c * Math.sin(hue)]
}

function token(name: string, theme: 'light' | 'dark'): Triple {
  const pair = new RegExp(`--${name}: light-dark\\(oklch\\(([^)]+)\\), oklch\\(([^)]+)\\)\\);`).exec(css)
  const text = pair?.[theme === 'light' ? 1 : 2]
  if (!text) throw new Error(`no colour --${name}`)
  return oklch(text)
}

function linear([l, a, b]: Triple): Triple {
  const [x, y, z] = [
    (l + 0.3963377774 * a + 0.2158037573 * b) ** 3,
    (l - 0.1055613458 * a - 0.0638541728 * b) ** 3,
    (l - 0.0894841775 * a - 1.291485548 * b) ** 3,
  ] as const
  return [
    4.0767416621 * x - 3.3077115913 * y + 0.2309699292 * z,
    -1.2684380046 * x + 2.6097574011 * y - 0.3413193965 * z,
    -0.0041960863 * x - 0.7034186147 * y + 1.707614701 * z,
  ]
}

function lab([r, g, b]: Triple): Triple {
  const [l, m, s] = [
    Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b),
    Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b),
    Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b),
  ] as const
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ]
}

const clamp = (rgb: Triple): Triple =>
  rgb.map((value) => Math.min(1, Math.max(0, value))) as unknown as Triple
const luminance = (rgb: Triple): number => 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2]

function contrast(one: Triple, other: Triple): number {
  const [a, b] = [luminance(clamp(linear(one))), luminance(clamp(linear(other)))]
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05)
}

const eyes: Record<string, readonly Triple[]> = {
  'an eye that sees all colours': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  'a protanope': [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  'a deuteranope': [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  'a tritanope': [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
}

const seen = (colour: Triple, eye: readonly Triple[]): Triple => {
  const rgb = clamp(linear(colour))
  return lab(
    clamp(eye.map((row) => row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2]) as unknown as Triple),
  )
}

const distance = (a: Triple, b: Triple): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])

const grounds = ['paper', 'sheet', 'lift']

describe.each(['light', 'dark'] as const)('the %s palette', (theme) => {
  it.each(['ink', 'soft', 'alert', 'more', 'less', 'pick', 'span', 'guide', 'mark'])(
    'sets --%s at 4.5:1 or more',
    (name) => {
      for (const ground of grounds)
        expect(contrast(token(name, theme), token(ground, theme))).toBeGreaterThan(4.5)
    },
  )

  it.each(['edge'])('draws lines of --%s at 3:1 or more', (name) => {
    for (const ground of grounds)
      expect(contrast(token(name, theme), token(ground, theme))).toBeGreaterThan(3)
  })

  it('sets pressed buttons, paper on ink, at 4.5:1 or more', () => {
    expect(contrast(token('paper', theme), token('ink', theme))).toBeGreaterThan(4.5)
  })

  it('draws strokes’ marks and the chosen colour apart from the ink that they lie on', () => {
    expect(contrast(token('mark', theme), token('ink', theme))).toBeGreaterThan(2)
    expect(distance(token('mark', theme), token('ink', theme))).toBeGreaterThan(0.25)
  })

  // 0.02 is about one just noticeable difference in OKLab; a reader must not have to look twice.
  it.each(Object.keys(eyes))('keeps above and below apart for %s', (name) => {
    const eye = eyes[name] ?? []
    expect(distance(seen(token('more', theme), eye), seen(token('less', theme), eye))).toBeGreaterThan(0.12)
  })

  it('stays within what a common screen shows', () => {
    for (const name of [
      ...grounds,
      'ink',
      'soft',
      'rule',
      'edge',
      'more',
      'less',
      'pick',
      'guide',
      'mark',
      'span',
      'alert',
    ]) {
      for (const value of linear(token(name, theme))) {
        expect(value, name).toBeGreaterThan(-0.002)
        expect(value, name).toBeLessThan(1.002)
      }
    }
  })
})
