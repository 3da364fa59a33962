import { css } from 'lit'
import { field, pressed } from '../styles/shared'

/** What the pages of the room share. */
export const lessonsStyle = css`
  ${field}

  h3 {
    font: 400 var(--type-5) / 1.2 var(--title-face);
  }

  h4 {
    margin: 0;
    color: var(--soft);
    font: 600 var(--type-1) / 1.3 var(--text-face);
    letter-spacing: 0.04em;
  }

  p {
    max-width: 44rem;
  }

  .quiet {
    color: var(--soft);
    font-size: var(--type-2);
  }

  .row {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: var(--gap-2);
  }

  .trouble {
    padding: var(--gap-2) var(--gap-3);
    color: var(--alert);
    border: var(--hair) solid currentColor;
    border-radius: var(--corner);
  }

  svg {
    display: block;
    width: 100%;
    height: 100%;
  }

  svg.icon {
    width: 1.25rem;
    height: 1.25rem;
  }

  .ink {
    fill: var(--ink);
  }

  .hollow {
    fill: color-mix(in oklch, var(--ink) 10%, transparent);
    stroke: var(--ink);
  }

  .hollow,
  .guide,
  .span,
  .edge,
  .line,
  .curve,
  .axis {
    fill: none;
    stroke-width: 1.5px;
    vector-effect: non-scaling-stroke;
  }

  .hollow {
    fill: color-mix(in oklch, var(--ink) 12%, transparent);
  }

  .taken {
    fill: var(--more);
  }

  .added {
    fill: var(--less);
  }

  .guide {
    stroke: var(--guide);
    stroke-width: 1px;
  }

  .guide.strong {
    stroke: var(--mark);
    stroke-width: 2px;
  }

  .edge {
    stroke: var(--guide);
    stroke-dasharray: 2 3;
  }

  .span,
  .line {
    stroke: var(--mark);
    stroke-width: 2px;
  }

  .point,
  .dot {
    fill: var(--mark);
  }

  .area {
    fill: color-mix(in oklch, var(--mark) 55%, transparent);
  }

  /* On ink a mark of ink's own lightness would be lost. */
  .span.under {
    stroke: var(--sheet);
    stroke-width: 4.5px;
  }

  .name {
    fill: var(--guide);
    font-family: var(--text-face);
    text-anchor: end;
  }

  /* Where the focus is put for the reader to begin: nothing there can be pressed. */
  [tabindex="-1"]:focus-visible {
    outline: none;
    box-shadow: none;
  }

  button.word {
    display: inline;
    min-width: 0;
    min-height: 0;
    padding: 0;
    border: 0;
    border-radius: 0;
    font: inherit;
    text-decoration: underline dotted var(--edge);
    text-decoration-thickness: 1.5px;
    text-underline-offset: 0.2em;
    white-space: normal;
  }

  button.word:hover {
    background: transparent;
    text-decoration-color: var(--ink);
  }

  ${pressed}


  input[type="range"] {
    accent-color: var(--ink);
    min-height: var(--target);
  }

  input[type="checkbox"] {
    width: 1.125rem;
    height: 1.125rem;
    accent-color: var(--pick);
  }

  label {
    font-size: var(--type-2);
  }

  table {
    border-collapse: collapse;
    font-size: var(--type-2);
  }

  th,
  td {
    padding: 0.1875rem var(--gap-3) 0.1875rem 0;
    text-align: end;
    vertical-align: baseline;
    font-weight: 400;
    font-variant-numeric: tabular-nums;
  }

  th[scope="row"],
  th:first-child {
    text-align: start;
  }

  thead th {
    color: var(--soft);
    font-size: var(--type-1);
  }

  tbody tr {
    border-block-start: var(--hair) solid var(--rule);
  }
`
