/** The sheet as a page: shown, printed, and saved as it stands. */

import { css, html, nothing, type TemplateResult } from 'lit'
import { many } from '../../figures'
import { fateName } from '../fate'
import { missingWords } from '../plan'
import { dayWords, verdictName } from '../words'
import { entryPicture, letterPicture } from './pictures'
import { type Entry, figuresWords, type SheetData, summary } from './sheet-data'

/** Paper is light wherever it lies: these colours are the sheet's own. */
export const sheetStyle = css`
  .sheet {
    max-width: 50rem;
    margin: 0 auto;
    padding: 2.5rem 2rem 3rem;
    color: #231f1a;
    background: #fffefb;
    font: 400 16px/1.5 "Iowan Old Style", Charter, "Palatino Linotype", P052, Georgia, serif;
    color-scheme: light;
  }

  .sheet * {
    box-sizing: border-box;
  }

  .sheet h1,
  .sheet h2,
  .sheet h3,
  .sheet p,
  .sheet ul,
  .sheet ol {
    margin: 0;
    padding: 0;
  }

  .sheet h1 {
    font-weight: 400;
    font-size: 34px;
    line-height: 1.15;
  }

  .sheet h2 {
    margin: 32px 0 10px;
    padding-top: 8px;
    border-top: 1px solid #231f1a;
    font-weight: 400;
    font-size: 21px;
    line-height: 1.3;
    break-after: avoid;
  }

  .sheet h3 {
    font-weight: 400;
    font-size: 18px;
    line-height: 1.35;
  }

  .sheet .facts {
    margin-top: 4px;
    color: #5b544b;
    font-size: 14px;
  }

  .sheet .sum {
    margin-top: 14px;
    font-size: 18px;
  }

  .sheet .note {
    margin-top: 6px;
    padding-left: 12px;
    border-left: 3px solid #a3243b;
    white-space: pre-line;
    overflow-wrap: anywhere;
  }

  .sheet .alphabet {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(52px, 1fr));
    gap: 6px 0;
    list-style: none;
  }

  .sheet .alphabet li {
    position: relative;
    text-align: center;
    break-inside: avoid;
  }

  .sheet .letter {
    display: block;
    width: 100%;
    height: 58px;
  }

  .sheet .alphabet .number {
    display: block;
    min-height: 18px;
    color: #a3243b;
    font: 600 12px/18px system-ui, sans-serif;
  }

  .sheet .alphabet a {
    display: inline-block;
    min-width: 24px;
    min-height: 24px;
    color: inherit;
    line-height: 24px;
  }

  .sheet .ink {
    fill: #231f1a;
  }

  .sheet .other {
    fill: #8d867b;
  }

  .sheet .base {
    fill: none;
    stroke: #6f93a6;
    stroke-width: 1;
    vector-effect: non-scaling-stroke;
  }

  .sheet .mark {
    fill: none;
    stroke: #c4254a;
    stroke-width: 2;
    stroke-linecap: round;
    stroke-linejoin: round;
  }

  .sheet .mark * {
    vector-effect: non-scaling-stroke;
  }

  .sheet .is,
  .sheet .would {
    fill: none;
    stroke: #a8480f;
    stroke-width: 2;
    vector-effect: non-scaling-stroke;
  }

  .sheet .would {
    stroke: #1c5aa8;
    stroke-dasharray: 5 3;
  }

  .sheet svg text {
    fill: #3a352e;
    font-family: system-ui, sans-serif;
  }

  .sheet .entries {
    display: grid;
    gap: 22px;
    list-style: none;
  }

  .sheet .entry {
    display: grid;
    grid-template-columns: minmax(0, 20rem) minmax(0, 1fr);
    gap: 6px 22px;
    align-items: start;
    break-inside: avoid;
  }

  .sheet .between {
    display: block;
    width: 100%;
    max-height: 210px;
    background: #f7f4ec;
    border: 1px solid #d8d2c5;
  }

  .sheet .before {
    display: flex;
    align-items: end;
    gap: 8px;
    margin-top: 6px;
    color: #5b544b;
    font-size: 13px;
  }

  .sheet .before .letter {
    width: 64px;
    height: 64px;
  }

  .sheet .redrawn {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 24px;
    margin-top: 10px;
    list-style: none;
  }

  .sheet .redrawn li {
    display: flex;
    align-items: center;
    break-inside: avoid;
  }

  .sheet .redrawn .letter {
    width: 64px;
    height: 64px;
  }

  .sheet .redrawn .letter:first-child .ink {
    fill: #8d867b;
  }

  .sheet .number {
    color: #a3243b;
    font-family: system-ui, sans-serif;
  }

  .sheet .word {
    display: inline-block;
    padding: 0 8px;
    border: 1px solid #6b6459;
    border-radius: 10px;
    font: 400 13px/20px system-ui, sans-serif;
  }

  .sheet .figures {
    margin-top: 6px;
    color: #5b544b;
    font-size: 14px;
  }

  .sheet .plain {
    padding-left: 1.2em;
    overflow-wrap: anywhere;
  }

  @media (width < 40rem) {
    .sheet {
      padding: 1.25rem 1rem 2rem;
    }

    .sheet .entry {
      grid-template-columns: minmax(0, 1fr);
    }
  }

  @media print {
    .sheet {
      max-width: none;
      padding: 0;
      background: none;
      font-size: 11pt;
      print-color-adjust: exact;
    }

    .sheet .entry {
      grid-template-columns: 75mm minmax(0, 1fr);
    }

    .sheet .alphabet {
      grid-template-columns: repeat(13, 1fr);
    }

    .sheet a {
      text-decoration: none;
    }
  }

  @page {
    margin: 16mm 15mm;
  }
`

export function sheet(data: SheetData): TemplateResult {
  const { title, style, contributor, revision, day, fileName, entries } = data
  const facts = [
    contributor && `drawn by ${contributor}`,
    revision > 0 && `revision ${revision}`,
    fileName,
    `looked at on ${dayWords(day)}`,
  ].filter(Boolean)
  return html`<article class="sheet" lang="en-GB">
    <h1>${title}${style ? ` ${style}` : ''}</h1>
    <p class="facts">${facts.join(' · ')}</p>
    <p class="sum">${summary(data)}</p>
    ${since(data)}
    <section>
      <h2>The alphabet</h2>
      <ul class="alphabet">
        ${[...data.letters].map((letter) => cell(data, letter))}
      </ul>
    </section>
    ${
      entries.length > 0
        ? html`<section>
            <h2>What asks for your eye</h2>
            <ol class="entries">
              ${entries.map((entry) => item(data, entry))}
            </ol>
          </section>`
        : nothing
    }
    ${lacking(data)}
    ${
      data.meant.length > 0
        ? html`<section>
            <h2>Meant so</h2>
            <p>These stand out on purpose and stay: ${data.meant.join(', ')}.</p>
          </section>`
        : nothing
    }
  </article>`
}

function cell(data: SheetData, letter: string) {
  const drawing = data.drawings.get(letter)
  if (!drawing) return nothing
  const numbers = data.entries.filter((entry) => entry.letter === letter).map(({ number }) => number)
  return html`<li>
    ${letterPicture(data, drawing, letter)}
    <span class="number">${numbers.map((number) => html`<a href="#matter-${number}">${number}</a> `)}</span>
  </li>`
}

function item(data: SheetData, entry: Entry) {
  const { number, letter, finding, verdict, note, before } = entry
  const asks =
    verdict === 'redraw' ? 'Please redraw it.' : verdict === 'again' ? 'Please look at it again.' : ''
  return html`<li class="entry" id="matter-${number}">
    <div>
      ${entryPicture(data, entry)}
      ${
        before
          ? html`<div class="before">${letterPicture(data, before, `${letter}, as it was`)}<span>as it was before</span></div>`
          : nothing
      }
    </div>
    <div>
      <h3><span class="number">${number}</span> ${finding ? finding.sentence : `${letter}. ${asks}`}</h3>
      ${verdict ? html`<p><span class="word">${verdictName[verdict]}</span></p>` : nothing}
      ${note ? html`<p class="note">${note}</p>` : nothing}
      ${finding ? html`<p class="figures">${figuresWords(finding)}</p>` : nothing}
    </div>
  </li>`
}

/** What became of what was asked last time, and the letters that were drawn anew, old beside new. */
function since(data: SheetData) {
  const { fates, revision, before, drawings } = data
  if (fates.length === 0) return nothing
  const redrawn = [...new Set(fates.map(({ letter }) => letter))].filter(
    (one) => before[one] && drawings.has(one),
  )
  return html`<section>
    <h2>Since revision ${revision - 1}</h2>
    <ul class="plain">
      ${(['settled', 'better', 'same', 'worse', 'new'] as const).map((one) => {
        const own = fates.filter(({ fate }) => fate === one)
        if (own.length === 0) return nothing
        return html`<li>${fateName[one]}: ${own.map(({ letter }) => letter).join(' ')}</li>`
      })}
    </ul>
    ${
      redrawn.length > 0
        ? html`<ul class="redrawn" aria-label="Drawn anew: before and now">
            ${redrawn.map((letter) => pair(data, letter))}
          </ul>`
        : nothing
    }
  </section>`
}

function pair(data: SheetData, letter: string) {
  const [was, is] = [data.before[letter], data.drawings.get(letter)]
  if (!was || !is) return nothing
  return html`<li>
    ${letterPicture(data, was, `${letter} before`)}<span aria-hidden="true">→</span>${letterPicture(data, is, `${letter} now`)}
  </li>`
}

function lacking({ missing }: SheetData) {
  const parts = missing.filter(({ characters }) => characters !== '')
  if (parts.length === 0) return nothing
  const total = new Set(parts.flatMap(({ characters }) => [...characters])).size
  return html`<section>
    <h2>Still to draw: ${many(total, 'character')}</h2>
    <ul class="plain">
      ${parts.map((part) =>
        part.language
          ? html`<li>${part.name}: <span lang=${part.language}>${[...part.characters].join(' ')}</span></li>`
          : html`<li>${missingWords(part)}</li>`,
      )}
    </ul>
  </section>`
}
