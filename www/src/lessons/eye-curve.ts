/** The psychometric curve: how often the changed one looked the larger, level by level. */

import { html, nothing, svg, type TemplateResult } from 'lit'
import { figure } from '../figures'
import type { EyeResult } from '../generated/EyeResult'
import type { EyeSetup } from '../generated/EyeSetup'
import { eyeWords } from './eye-words'

const WIDE = 640
const HIGH = 320
const [LEFT, RIGHT, TOP, FOOT] = [46, 12, 64, 44]

/** Words over two lines nearer than this cannot stand side by side. */
const APART = 74

export function eyeCurve(setup: EyeSetup, result: EyeResult, label: string): TemplateResult {
  const { least, most } = setup
  const x = (level: number) => LEFT + ((level - least) / (most - least)) * (WIDE - LEFT - RIGHT)
  const y = (share: number) => HIGH - FOOT - share * (HIGH - TOP - FOOT)
  const { fit } = result
  const ticks = Array.from({ length: 8 }, (_, at) => least + ((most - least) * at) / 7)
  const line = fit?.curve
    .map(([level, share], at) => `${at === 0 ? 'M' : 'L'}${x(level)} ${y(share)}`)
    .join('')
  const low = x(fit?.low ?? least)
  const high = x(fit?.high ?? most)
  const marks = [
    ...(fit ? [{ at: x(fit.equal), name: 'you', kind: 'you' }] : []),
    { at: x(Math.min(Math.max(setup.own, least), most)), name: 'this font', kind: 'own' },
    ...(setup.handbook === null ? [] : [{ at: x(setup.handbook), name: 'handbook', kind: 'book' }]),
  ].sort((a, b) => a.at - b.at)
  let last = -APART
  let row = 0
  const placed = marks.map((mark) => {
    row = mark.at - last < APART ? row + 1 : 0
    last = mark.at
    return { ...mark, row }
  })
  return html`<svg viewBox="0 0 ${WIDE} ${HIGH + 12}" role="img" aria-label=${label}>
    ${
      fit
        ? svg`<rect class="interval" x=${low} y=${TOP} width=${Math.max(high - low, 1)} height=${HIGH - TOP - FOOT} />`
        : nothing
    }
    ${[0, 0.25, 0.5, 0.75, 1].map(
      (
        share,
      ) => svg`<path class=${share === 0.5 ? 'grid half' : 'grid'} d="M${LEFT} ${y(share)}H${WIDE - RIGHT}" />
        <text class="end" x=${LEFT - 6} y=${y(share) + 4}>${figure(100 * share, 0)}%</text>`,
    )}
    ${ticks.map((level) => svg`<text class="middle" x=${x(level)} y=${HIGH - FOOT + 18}>${figure(level, 0)}%</text>`)}
    <text class="middle" x=${(LEFT + WIDE - RIGHT) / 2} y=${HIGH}>${eyeWords[setup.matter].level}</text>
    ${line ? svg`<path class="curve" d=${line} />` : nothing}
    ${result.levels.map(
      ({ level, asked, larger }) =>
        svg`<circle class="answers" cx=${x(level)} cy=${y(larger / asked)} r=${2 + 1.7 * Math.sqrt(asked)} />`,
    )}
    ${placed.map(
      ({
        at,
        name,
        kind,
        row,
      }) => svg`<path class="mark ${kind}" d="M${at} ${TOP - 50 + 14 * row}V${HIGH - FOOT}" />
        <text class=${at > WIDE - 90 ? 'end' : 'start'} x=${at > WIDE - 90 ? at - 4 : at + 4} y=${TOP - 50 + 14 * row + 9}>${name}</text>`,
    )}
  </svg>`
}
