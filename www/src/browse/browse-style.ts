import { css } from 'lit'
import { pressed } from '../styles/shared'

export const roomStyle = css`
  :host {
    height: 100%;
  }

  .room {
    display: grid;
    grid-template-rows: auto minmax(0, 1fr) auto;
    height: 100%;
    min-height: 0;
  }

  .wait {
    padding: var(--gap-5);
    color: var(--soft);
  }

  .trouble {
    color: var(--alert);
  }

  .top {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: var(--gap-2) var(--gap-4);
    padding: var(--gap-3) var(--gap-5);
    border-block-end: var(--hair) solid var(--rule);
  }

  label {
    display: flex;
    align-items: center;
    gap: var(--gap-2);
    color: var(--soft);
    font-size: var(--type-2);
  }

  input,
  select {
    color: var(--ink);
  }

  .find {
    flex: 1 1 16rem;
    max-width: 28rem;
  }

  .find input {
    flex: 1;
    min-width: 0;
    font-size: var(--type-3);
  }

  .find input::placeholder {
    color: var(--soft);
    opacity: 1;
  }

  .found {
    flex: 1 1 10rem;
    color: var(--soft);
    font-size: var(--type-2);
    font-variant-numeric: tabular-nums;
  }

  .block select {
    width: 16rem;
    min-width: 0;
    max-width: 100%;
    text-overflow: ellipsis;
  }

  .size input {
    width: 6.5rem;
    min-height: var(--target);
    accent-color: var(--ink);
  }

  .none {
    display: grid;
    align-content: center;
    justify-items: center;
    gap: var(--gap-3);
    min-height: 0;
    padding: var(--gap-5);
    overflow: auto;
    background: var(--sheet);
    text-align: center;
    overflow-wrap: anywhere;
  }

  .none .line {
    width: 12rem;
    height: 3rem;
    border-block-end: var(--hair) solid var(--guide);
  }

  .none .quiet {
    max-width: 34rem;
    color: var(--soft);
    font-size: var(--type-2);
  }

  .foot {
    display: flex;
    align-items: center;
    gap: var(--gap-2) var(--gap-5);
    padding: var(--gap-2) var(--gap-5);
    border-block-start: var(--hair) solid var(--edge);
  }

  one-letter {
    flex: 1 1 20rem;
    min-width: 0;
  }

  .doing {
    display: grid;
    flex: 1 1 18rem;
    justify-items: end;
    gap: var(--gap-1);
    margin-inline-start: auto;
    text-align: end;
  }

  .said {
    min-height: 1.45em;
    font-size: var(--type-2);
  }

  .row {
    display: flex;
    flex-wrap: wrap;
    justify-content: end;
    align-items: center;
    gap: var(--gap-2);
  }

  ${pressed}

  @media (width < 44rem) {
    .top {
      gap: var(--gap-2) var(--gap-3);
      padding: var(--gap-2) var(--gap-4);
    }

    .find {
      flex-basis: 100%;
      max-width: none;
    }

    .found {
      flex-basis: 100%;
    }

    .block {
      flex: 1 1 8rem;
      min-width: 0;
    }

    .block span {
      display: none;
    }

    .block select {
      width: 100%;
    }

    .foot {
      flex-wrap: wrap;
      padding: var(--gap-2) var(--gap-4);
    }

    one-letter,
    .doing {
      flex-basis: 100%;
    }

    .doing {
      justify-items: start;
      text-align: start;
    }

    .row {
      justify-content: start;
    }
  }

  /* Enlarged fourfold a window is hardly higher than a few lines: the room scrolls, and the letters keep some of it. */
  @media (height < 30rem) {
    :host {
      height: auto;
    }

    .room {
      grid-template-rows: auto max(12rem, 60dvh) auto;
      height: auto;
    }
  }
`
