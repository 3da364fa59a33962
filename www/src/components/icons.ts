import { css, html, type SVGTemplateResult, svg, type TemplateResult } from 'lit'

/**
 * The page's icons: drawn for it, on a grid of 20, in lines of one weight.
 * They stand beside or in place of a label that is always there for a screen
 * reader, so each is hidden from it.
 */
const drawings = {
  next: svg`<path d="M7.5 4l6 6-6 6" />`,
  previous: svg`<path d="M12.5 4l-6 6 6 6" />`,
  left: svg`<path d="M12.5 4l-6 6 6 6" />`,
  right: svg`<path d="M7.5 4l6 6-6 6" />`,
  'left-ten': svg`<path d="M10 4l-6 6 6 6M16.5 4l-6 6 6 6" />`,
  'right-ten': svg`<path d="M10 4l6 6-6 6M3.5 4l6 6-6 6" />`,
  up: svg`<path d="M4 12.5l6-6 6 6" />`,
  down: svg`<path d="M4 7.5l6 6 6-6" />`,
  'pan-left': svg`<path d="M17 10H3.5M8 5l-5 5 5 5" />`,
  'pan-right': svg`<path d="M3 10h13.5M12 5l5 5-5 5" />`,
  'pan-up': svg`<path d="M10 17V3.5M5 8l5-5 5 5" />`,
  'pan-down': svg`<path d="M10 3v13.5M5 12l5 5 5-5" />`,
  home: svg`<path d="M2.5 15.5h15M10 3v8.5M6 8l4 4 4-4" />`,
  pin: svg`<path d="M7 3h6M8 3v5.5L5.5 12h9L12 8.5V3M10 12v5.5" />`,
  mirror: svg`<path d="M10 2.5v15" stroke-dasharray="2 1.6" /><path d="M7 5.5v9H2.5zM13 5.5v9h4.5z" />`,
  turn: svg`<path d="M3 10h14" stroke-dasharray="2 1.6" /><path d="M6 7l4-4.5L14 7zM6 13l4 4.5 4-4.5z" />`,
  copy: svg`<path d="M3.5 3.5h9v9h-9z" /><path d="M12.5 7.5h4v9h-9v-4" />`,
  remove: svg`<path d="M4.5 4.5l11 11M15.5 4.5l-11 11" />`,
  'align-left': svg`<path d="M3.5 2.5v15M6.5 5h10v3.5h-10zM6.5 11.5h6V15h-6z" />`,
  'align-right': svg`<path d="M16.5 2.5v15M3.5 5h10v3.5h-10zM7.5 11.5h6V15h-6z" />`,
  'align-centre': svg`<path d="M10 2.5v2.5M10 8.5v3M10 15v2.5M4 5h12v3.5H4zM6.5 11.5h7V15h-7z" />`,
  'align-stem-left': svg`<path d="M6.5 2.5v15" /><path d="M9 5h3v10H9zM12 5h5M12 10h4" />`,
  'align-stem': svg`<path d="M8.5 2.5v2M8.5 15.5v2" /><path d="M7 5h3v10H7zM10 5h6M10 10h5" />`,
  calliper: svg`<path d="M3 3.5v13M17 3.5v13M5 10h10M7.5 7.5L5 10l2.5 2.5M12.5 7.5L15 10l-2.5 2.5" />`,
  plus: svg`<path d="M10 4v12M4 10h12" />`,
  minus: svg`<path d="M4 10h12" />`,
  fit: svg`<path d="M3 7V3.5h3.5M13.5 3.5H17V7M17 13v3.5h-3.5M6.5 16.5H3V13M6 10h8" />`,
  'fit-chosen': svg`<path d="M3 7V3.5h3.5M13.5 3.5H17V7M17 13v3.5h-3.5M6.5 16.5H3V13" /><path d="M8 7.5h4v5H8z" />`,
  undo: svg`<path d="M7.5 4L4 7.5 7.5 11M4 7.5h8a4 4 0 0 1 0 8H8" />`,
  redo: svg`<path d="M12.5 4L16 7.5 12.5 11M16 7.5H8a4 4 0 0 0 0 8h4" />`,
  open: svg`<path d="M12 2.5H4.5v15h11V6L12 2.5V6h3.5M10 15V9M7.5 11.5L10 9l2.5 2.5" />`,
  save: svg`<path d="M10 3v9.5M6 9l4 4 4-4M3.5 13.5v3h13v-3" />`,
  redraw: svg`<path d="M3 16.5l1-4L13 3.5l3 3-9 9zM11 5.5l3 3" />`,
  sheet: svg`<path d="M4.5 2.5h11v15h-11zM7.5 6.5h5M7.5 9.5h5M7.5 12.5h3" />`,
  shelf: svg`<path d="M2.5 16.5h15M4.5 16V7h3v9M7.5 16V4h3v12M11.5 16V8h4v8" />`,
  browse: svg`<path d="M2.5 8.5h15M2.5 17.5h15M5 8.5v-6M8.5 8.5v-6M15.5 17.5v-6" /><circle cx="14" cy="6" r="2.5" /><circle cx="7.5" cy="15" r="2.5" />`,
  lessons: svg`<path d="M2.5 4.5h15M2.5 15.5h15M3.5 5.5h3v9h-3z" /><circle cx="13" cy="10" r="5" />`,
  word: svg`<path d="M3 3.5h14v10h-7l-3.5 3.5v-3.5H3zM6.5 7.5h7M6.5 10h4" />`,
  keys: svg`<path d="M2.5 5.5h15v9h-15zM5.5 8.5h1M9.5 8.5h1M13.5 8.5h1M6.5 11.5h7" />`,
  close: svg`<path d="M4.5 4.5l11 11M15.5 4.5l-11 11" />`,
  more: svg`<path d="M5 8l5 5 5-5" />`,
  system: svg`<path d="M10 3a7 7 0 1 0 0 14z" fill="currentColor" /><path d="M10 3a7 7 0 0 1 0 14" />`,
  light: svg`<circle cx="10" cy="10" r="3.5" /><path d="M10 2v2M10 16v2M2 10h2M16 10h2M4.3 4.3l1.5 1.5M14.2 14.2l1.5 1.5M4.3 15.7l1.5-1.5M14.2 5.8l1.5-1.5" />`,
  dark: svg`<path d="M16 12.2A6.8 6.8 0 0 1 7.8 4a6.8 6.8 0 1 0 8.2 8.2z" />`,
  warn: svg`<path d="M10 3l7.5 13.5h-15zM10 8v4.5M10 14.2v.6" />`,
} satisfies Record<string, SVGTemplateResult>

export type IconName = keyof typeof drawings

export const icon = (name: IconName): TemplateResult =>
  html`<svg class="icon" viewBox="0 0 20 20" aria-hidden="true">${drawings[name]}</svg>`

export const iconStyle = css`
  .icon {
    display: block;
    width: 1.25rem;
    height: 1.25rem;
    flex: none;
    fill: none;
    stroke: currentColor;
    stroke-width: 1.5;
    stroke-linejoin: round;
    stroke-linecap: round;
  }
`
