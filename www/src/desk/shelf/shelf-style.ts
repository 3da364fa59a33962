import { css } from 'lit'

/** Fonts stand as type does on a foundry's shelf: in rows, on boards. */
export const shelfStyle = css`
  :host {
    padding: var(--gap-4) var(--gap-5) var(--gap-5);
  }

  .told,
  .empty {
    max-width: 38rem;
    padding: var(--gap-4) 0;
  }

  .failed {
    color: var(--alert);
  }

  .head {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: var(--gap-2) var(--gap-4);
  }

  .sum {
    flex: 1 1 18rem;
    color: var(--soft);
  }

  .placing {
    margin-block: var(--gap-3);
    padding: var(--gap-4);
    background: var(--sheet);
    border: var(--hair) solid var(--edge);
    border-radius: var(--corner);
  }

  .empty {
    display: grid;
    gap: var(--gap-3);
    margin-inline: auto;
    text-align: center;
  }

  .bare {
    height: 4rem;
    border-block-end: 5px solid var(--edge);
  }

  .empty h3,
  .board > h3 {
    color: var(--ink);
    font: 400 var(--type-4) / 1.3 var(--title-face);
    letter-spacing: 0;
  }

  .board {
    margin-block-start: var(--gap-5);
  }

  .count {
    color: var(--soft);
    font: 400 var(--type-2) / 1 var(--text-face);
  }

  ol,
  ul {
    list-style: none;
  }

  /* The board that it stands on. */
  .font {
    border-block-end: 4px solid var(--edge);
    content-visibility: auto;
    contain-intrinsic-size: auto 6.5rem;
  }

  .font.open {
    content-visibility: visible;
  }

  .face {
    display: grid;
    grid-template:
      "name type" auto
      "why  type" 1fr
      "when figures" auto / minmax(13rem, 22rem) minmax(0, 1fr);
    gap: 0 var(--gap-5);
    align-items: end;
    justify-content: stretch;
    width: 100%;
    padding: var(--gap-3) var(--gap-2) 0.375rem;
    border: 0;
    border-radius: 0;
    text-align: start;
    white-space: normal;
  }

  .face:focus-visible {
    outline-offset: -2px;
    box-shadow: none;
  }

  .name {
    grid-area: name;
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0 var(--gap-2);
    overflow-wrap: anywhere;
  }

  .name b {
    font: 400 var(--type-5) / 1.15 var(--title-face);
  }

  .name span,
  .when {
    color: var(--soft);
  }

  .why {
    grid-area: why;
    align-self: start;
    line-height: 1.35;
  }

  .when {
    grid-area: when;
    font-size: var(--type-1);
    line-height: 1.35;
  }

  .type {
    grid-area: type;
    align-self: end;
  }

  .row {
    display: block;
    width: 100%;
    height: 2.75rem;
  }

  .row .ink {
    fill: var(--ink);
  }

  .row .outline {
    fill: var(--sheet);
    stroke: var(--ink);
    stroke-width: 1;
    vector-effect: non-scaling-stroke;
  }

  .row .place {
    fill: none;
    stroke: var(--edge);
    stroke-width: 1.5;
    vector-effect: non-scaling-stroke;
  }

  .figures {
    grid-area: figures;
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--gap-4);
    padding-block-start: var(--gap-1);
    color: var(--soft);
    font-size: var(--type-2);
  }

  .figures b {
    color: var(--ink);
    font-weight: 600;
  }

  .off {
    margin-block-start: var(--gap-5);
    font-size: var(--type-2);
  }

  summary {
    min-height: max(1.5rem, var(--target));
    cursor: pointer;
  }

  .off li {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: var(--gap-2);
  }

  footer {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: var(--gap-2) var(--gap-4);
    margin-block-start: var(--gap-6);
    padding-block-start: var(--gap-3);
    border-block-start: var(--hair) solid var(--rule);
    color: var(--soft);
    font-size: var(--type-2);
  }

  footer button {
    color: var(--ink);
  }

  .ways {
    display: flex;
    flex-wrap: wrap;
    gap: var(--gap-2);
  }

  .turn {
    padding: 0 var(--gap-1);
    text-decoration: underline;
    text-underline-offset: 0.2em;
  }

  @media (width < 44rem) {
    :host {
      padding: var(--gap-3) var(--gap-4);
    }

    .face {
      grid-template: "name" auto "why" auto "type" auto "figures" auto "when" auto / minmax(0, 1fr);
      gap: var(--gap-1);
      padding-inline: 0;
    }

    .row {
      height: 2rem;
    }
  }
`
