import { css } from 'lit'

/** What the parts of the margin share: sections between hairlines, tables of figures. */
export const panel = css`
  section {
    padding: var(--gap-3) var(--gap-4);
    border-block-end: var(--hair) solid var(--rule);
  }

  section > h3 {
    margin-block-end: var(--gap-2);
  }

  table {
    width: 100%;
    border-collapse: collapse;
    font-size: var(--type-2);
  }

  th,
  td {
    padding: 0.1875rem 0;
    text-align: end;
    vertical-align: baseline;
    font-weight: 400;
  }

  th:first-child,
  td:first-child {
    text-align: start;
  }

  tbody th {
    color: var(--soft);
  }

  thead th {
    color: var(--soft);
    font-size: var(--type-1);
  }

  tbody tr + tr > * {
    border-block-start: var(--hair) solid var(--rule);
  }

  td + td,
  th + td,
  th + th {
    padding-inline-start: var(--gap-2);
  }

  .quiet {
    color: var(--soft);
    font-size: var(--type-2);
  }
`
