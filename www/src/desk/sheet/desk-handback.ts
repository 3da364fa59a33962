import { css, html, LitElement } from 'lit'
import { customElement, query, state } from 'lit/decorators.js'
import { icon, iconStyle } from '../../components/icons'
import { PartOf } from '../../components/part-of'
import { save } from '../../save'
import { session } from '../../session'
import { base, button } from '../../styles/shared'
import { guideName } from '../../words'
import { ALPHABET } from '../reviewing'
import { type Drawing, type ReadingRecord, today } from '../schema'
import { dayWords } from '../words'
import { copyOf, pageOf } from './save-page'
import { type SheetData, sheetCsv, sheetData, sheetJson } from './sheet-data'
import { sheet, sheetStyle } from './sheet-document'

/**
 * What lies over the page cannot be broken into sheets of paper. A copy beside
 * the page is what is printed, and the page itself is not.
 */
const printStyle = css`
  @media screen {
    .printed {
      display: none;
    }
  }

  @media print {
    html,
    body {
      background: none;
    }

    body > :not(.printed) {
      display: none;
    }
  }
`

/** The page that goes back to the artist, and the ways that it can go. */
@customElement('desk-handback')
export class DeskHandback extends LitElement {
  static override styles = [
    base,
    button,
    iconStyle,
    sheetStyle,
    css`
      .ways {
        position: sticky;
        z-index: 1;
        top: 0;
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2);
        padding: var(--gap-2) var(--gap-5);
        background: var(--paper);
        border-block-end: var(--hair) solid var(--rule);
      }

      .ways p {
        flex: 1 1 12rem;
        color: var(--soft);
        font-size: var(--type-2);
      }

      .desk {
        padding: var(--gap-5) var(--gap-4);
      }

      @media (width < 44rem) {
        .ways {
          padding-inline: var(--gap-4);
        }

        .desk {
          padding: 0;
        }
      }
    `,
  ]

  readonly #review = new PartOf(this, session.store, (page) => page.review)

  /** What the revision before held; null where there is none. */
  @state() private earlier: ReadingRecord | null = null

  @query('.sheet') private readonly paper!: Element | null

  readonly #printed = document.createElement('div')
  readonly #styles = [sheetStyle, printStyle].flatMap((one) => one.styleSheet ?? [])

  override connectedCallback(): void {
    super.connectedCallback()
    this.#printed.className = 'printed'
    document.body.append(this.#printed)
    document.adoptedStyleSheets.push(...this.#styles)
    void this.#readEarlier()
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#printed.remove()
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => !this.#styles.includes(one))
  }

  override updated(): void {
    this.#printed.replaceChildren(...(this.paper ? [copyOf(this.paper)] : []))
  }

  override render() {
    const data = this.#data()
    if (!data) return html`<p class="ways">No font is open.</p>`
    return html`<div class="ways">
        ${this.#answer()}
        <button class="framed" type="button" @click=${() => window.print()}>Print</button>
        <button class="framed" type="button" @click=${() => this.#savePage(data)}>${icon('save')} Save as a page</button>
        <button type="button" @click=${() => this.#save(data, 'json')}>JSON</button>
        <button type="button" @click=${() => this.#save(data, 'csv')}>CSV</button>
      </div>
      <div class="desk">${sheet(data)}</div>`
  }

  #answer() {
    const { revision } = this.#review.value
    if (!revision) return html`<p>Put the font on the shelf to keep count of what goes out.</p>`
    const { answered } = revision
    return html`<p>${answered ? `Handed back on ${dayWords(answered)}.` : 'Not handed back yet.'}</p>
      <button
        class="framed"
        type="button"
        @click=${() => void session.reviewing.shelving.answer(answered === null)}
      >
        ${answered === null ? 'It goes out today' : 'It has not gone out'}
      </button>`
  }

  #data(): SheetData | null {
    const { font, judgement } = session.state
    const { review } = session.state
    if (!font || review.font === '') return null
    const { report, fileName } = font
    const findings = judgement.kind === 'done' ? judgement.report.findings : []
    const planned = review.shelved?.planned || ALPHABET
    const beside = findings.map((one) => `${one.letter}${one.beside}`).join('')
    const drawings = new Map<string, Drawing>(
      session
        .drawings(planned + beside)
        .filter(({ path }) => path !== '')
        .map(({ character, advance, path }) => [character, { advance, path }]),
    )
    return sheetData({
      title: review.shelved?.title || report.family,
      style: review.shelved ? '' : report.style,
      contributor: review.shelved?.contributor || report.designer || '',
      revision: review.number,
      day: today(),
      fileName,
      unitsPerEm: report.unitsPerEm,
      heights: report.guides.flatMap(({ kind, drawn }) =>
        drawn == null ? [] : [{ name: guideName[kind], y: drawn }],
      ),
      shelved: review.shelved,
      planned,
      read: { letters: review.letters, findings },
      drawings,
      reviews: review.reviews,
      before: this.#before(review.letters),
      fates: review.fates ?? [],
    })
  }

  /** The earlier drawings of letters that have been drawn anew. */
  #before(letters: Readonly<Record<string, string>>): Record<string, Drawing> {
    const { earlier } = this
    if (!earlier) return {}
    const anew = Object.entries(earlier.drawings).filter(
      ([letter]) => earlier.letters[letter] !== letters[letter],
    )
    return Object.fromEntries(anew)
  }

  async #readEarlier(): Promise<void> {
    const { store } = session.reviewing
    const { shelved, revision } = this.#review.value
    if (!store || !shelved || !revision) return
    const all = await store.revisionsOf(shelved.id)
    const sorted = all.toSorted((a, b) => a.received.localeCompare(b.received))
    const before = sorted[sorted.findIndex((one) => one.id === revision.id) - 1]
    this.earlier = (before && (await store.reading(before.id))) ?? null
  }

  #savePage(data: SheetData): void {
    if (!this.paper) return
    const page = pageOf(this.paper, `${data.title}: the sheet of ${dayWords(data.day)}`)
    save(document, new Blob([page], { type: 'text/html' }), nameOf(data, 'html'))
  }

  #save(data: SheetData, kind: 'json' | 'csv'): void {
    const text = kind === 'json' ? sheetJson(data) : sheetCsv(data)
    const type = kind === 'json' ? 'application/json' : 'text/csv;charset=utf-8'
    save(document, new Blob([text], { type }), nameOf(data, kind))
  }
}

/** "Marrowbone-sheet-3.html": no sign that a file system would stumble over. */
function nameOf({ title, revision }: SheetData, ending: string): string {
  const safe =
    title
      .replaceAll(/[^\p{L}\p{N} _-]/gu, '')
      .trim()
      .replaceAll(' ', '-') || 'font'
  return `${safe}-sheet${revision > 0 ? `-${revision}` : ''}.${ending}`
}
