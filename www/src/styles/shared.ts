import { css } from 'lit'

/** What every component starts from: shadow roots inherit type and colour, not box sizing. */
export const base = css`
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }

  :host {
    display: block;
  }

  :host([hidden]),
  [hidden] {
    display: none !important;
  }

  :focus {
    outline: none;
  }

  /* Two rings, so that one of them stands out from whatever lies beneath. */
  :focus-visible {
    outline: 2px solid var(--pick);
    outline-offset: 2px;
    box-shadow: 0 0 0 2px var(--lift);
  }

  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    padding: 0;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
    border: 0;
  }

  h2,
  h3,
  p,
  dl,
  dd,
  ul,
  ol,
  figure {
    margin: 0;
    padding: 0;
  }
`

/** What folds away under a summary: its own arrow, which turns, in the browser's place. */
export const fold = css`
  summary::-webkit-details-marker {
    display: none;
  }

  summary .icon {
    transition: rotate var(--fast);
  }

  details[open] summary .icon {
    rotate: 180deg;
  }
`

/** Buttons: a line of ink on paper; pressed ones are printed solid. */
export const button = css`
  button {
    display: inline-flex;
    align-items: center;
    justify-content: center;
    gap: var(--gap-1);
    min-width: var(--target);
    min-height: var(--target);
    padding: 0 var(--gap-2);
    color: inherit;
    background: transparent;
    border: var(--hair) solid transparent;
    border-radius: var(--corner);
    font: inherit;
    font-size: var(--type-2);
    line-height: 1.2;
    white-space: nowrap;
    cursor: pointer;
    transition:
      background-color var(--fast),
      border-color var(--fast);
  }

  button:hover:not([aria-disabled="true"]) {
    background: var(--wash);
  }

  button[aria-disabled="true"] {
    color: color-mix(in oklch, var(--soft) 65%, var(--paper));
    cursor: default;
  }

  button.framed {
    border-color: var(--edge);
    background: var(--lift);
  }

  @media (forced-colors: active) {
    button {
      border-color: ButtonBorder;
    }

    button:hover:not([aria-disabled="true"]) {
      border-color: Highlight;
    }

    button[aria-pressed="true"] {
      border-width: 3px;
    }
  }
`

/** Pressed buttons printed solid: paper on ink. */
export const pressed = css`
  button[aria-pressed="true"] {
    color: var(--paper);
    background: var(--ink);
    forced-color-adjust: none;
  }

  button[aria-pressed="true"]:hover:not([aria-disabled="true"]) {
    background: var(--soft);
  }
`

/** A key, as on the keyboard. */
export const keycap = css`
  kbd {
    display: inline-block;
    min-width: 1.5rem;
    padding: 0 0.3125rem;
    border: var(--hair) solid var(--edge);
    border-radius: var(--corner);
    font: inherit;
    font-size: var(--type-1);
    text-align: center;
  }
`

/** Small capitals' stand-in: quiet headings for groups of figures. */
export const heading = css`
  h3,
  .heading {
    color: var(--soft);
    font: 600 var(--type-1) / 1.3 var(--text-face);
    letter-spacing: 0.04em;
  }
`

/**
 * What is typed into or chosen from: a frame on lifted paper. Without weight of
 * its own, so that a component says only what is other in its place.
 */
export const field = css`
  :where(select, textarea, input:not([type="checkbox"], [type="radio"], [type="range"], [type="file"])) {
    min-height: var(--target);
    padding: 0 var(--gap-2);
    color: inherit;
    background: var(--lift);
    border: var(--hair) solid var(--edge);
    border-radius: var(--corner);
    font: inherit;
  }
`

/** What asks or tells over the page: lifted paper, the page behind it dimmed. */
export const dialog = css`
  dialog {
    max-height: calc(100dvh - 2rem);
    color: var(--ink);
    background: var(--lift);
    border: var(--hair) solid var(--edge);
    border-radius: var(--corner);
  }

  dialog::backdrop {
    background: oklch(0.15 0.01 70 / 0.5);
  }
`
