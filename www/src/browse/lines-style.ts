import { css } from 'lit'

/** Letters as on a specimen sheet: lines on hairlines, headings in the margin's voice. */
export const linesStyle = css`
  :host {
    display: grid;
    min-height: 0;
  }

  .scroll {
    overflow: auto;
    min-height: 0;
    padding: 0 var(--gap-5);
    background: var(--sheet);
    overscroll-behavior: contain;
  }

  .sheet {
    position: relative;
    min-height: 100%;
    contain: strict;
  }

  /* The letter that the keys are at wears the ring, not the whole sheet. */
  .sheet:focus-visible {
    outline: none;
    box-shadow: none;
  }

  .line,
  .heading {
    position: absolute;
    inset: 0 0 auto;
    contain: layout style;
  }

  .heading {
    display: flex;
    flex-wrap: wrap;
    align-items: end;
    align-content: end;
    gap: 0 var(--gap-3);
    padding-block-end: var(--gap-1);
    overflow: hidden;
    font: 400 var(--type-4) / 1.2 var(--title-face);
  }

  .heading small {
    color: var(--soft);
    font: 400 var(--type-1) / 1.6 var(--text-face);
    font-variant-numeric: tabular-nums;
  }

  .line::before {
    content: "";
    position: absolute;
    inset: var(--baseline) 0 auto;
    border-block-start: var(--hair) solid color-mix(in oklch, var(--guide) 45%, transparent);
  }

  canvas {
    position: absolute;
    inset: 0 auto auto 0;
    color: var(--ink);
    pointer-events: none;
  }

  .cell {
    position: absolute;
    inset-block: 0;
    border-radius: var(--corner);
    cursor: pointer;
  }

  .cell:hover {
    background: color-mix(in oklch, var(--guide) 12%, transparent);
  }

  .cell[aria-selected="true"] {
    background: color-mix(in oklch, var(--pick) 20%, transparent);
    box-shadow: inset 0 -3px 0 var(--pick);
  }

  .here {
    outline: 1px solid var(--edge);
    outline-offset: -1px;
  }

  .sheet:focus-visible .here {
    outline: 2px solid var(--pick);
    outline-offset: -2px;
  }

  @media (forced-colors: active) {
    .cell[aria-selected="true"] {
      border: 2px solid Highlight;
    }
  }

  @media (width < 44rem) {
    .scroll {
      padding-inline: var(--gap-4);
    }
  }
`
