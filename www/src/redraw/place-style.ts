import { css } from 'lit'
import { field } from '../styles/shared'

/** Controls and remarks in the redraw's parts. */
export const placeStyle = css`
  ${field}

  :host {
    display: grid;
    gap: var(--gap-3);
  }

  .row {
    display: flex;
    flex-wrap: wrap;
    align-items: end;
    gap: var(--gap-3);
  }

  label,
  .field {
    display: grid;
    gap: var(--gap-1);
    color: var(--soft);
    font-size: var(--type-2);
  }

  label.inline {
    display: inline-flex;
    align-items: center;
    gap: var(--gap-2);
    min-height: var(--target);
    color: inherit;
  }

  input:not([type]),
  input[type="number"],
  input[type="text"],
  select,
  textarea {
    color: var(--ink);
    font-size: var(--type-2);
  }

  input[type="number"] {
    width: 7rem;
    font-variant-numeric: tabular-nums;
  }

  input[type="range"] {
    width: 100%;
    accent-color: var(--pick);
  }

  input[type="file"] {
    color: var(--soft);
    font: inherit;
    font-size: var(--type-2);
  }

  input[type="file"]::file-selector-button {
    min-height: var(--target);
    margin-inline-end: var(--gap-3);
    padding: 0 var(--gap-3);
    color: var(--ink);
    background: var(--lift);
    border: var(--hair) solid var(--edge);
    border-radius: var(--corner);
    font: inherit;
    cursor: pointer;
  }

  input[type="radio"],
  input[type="checkbox"] {
    width: 1.125rem;
    height: 1.125rem;
    margin: 0;
    accent-color: var(--pick);
  }

  button.main {
    color: var(--paper);
    background: var(--ink);
    forced-color-adjust: none;
    border-color: var(--ink);
  }

  button.main:hover:not([aria-disabled="true"]) {
    background: var(--soft);
  }

  .note {
    max-width: 44rem;
    color: var(--soft);
    font-size: var(--type-2);
    line-height: 1.4;
  }

  .alert {
    color: var(--alert);
    font-size: var(--type-2);
  }
`
