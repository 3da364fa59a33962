import type { Theme } from './generated/Theme'
import type { ThemeChoice } from './state'

/** Puts the person's choice on the document; `system` leaves it to the browser. */
export function wear(choice: ThemeChoice, root: HTMLElement): void {
  if (choice === 'system') delete root.dataset.theme
  else root.dataset.theme = choice
}

/** Where each of the stage's colours comes from in `tokens.css`. */
const colours = {
  paper: '--sheet',
  ink: '--ink',
  over: '--stage-mark',
  chosen: '--pick',
  pinned: '--pick',
  guide: '--guide',
  declared: '--soft',
  band: '--band',
  stroke: '--stage-mark',
  point: '--less',
  overshoot: '--guide',
  width: '--stage-span',
  refit: '--stage-refit',
  flaw: '--stage-flaw',
  calliper: '--stage-span',
  above: '--more',
  below: '--less',
  rule: '--edge',
  label: '--ink',
  halo: '--sheet',
  missing: '--soft',
} satisfies Record<Exclude<keyof Theme, 'font' | 'fontSize'>, string>

/**
 * The stage's theme as the style sheets have it now. A custom property keeps
 * its text; only as the colour of an element does the browser work it out.
 */
export function stageTheme(probe: HTMLElement): Theme {
  const style = getComputedStyle(probe)
  const read = (name: string): string => {
    probe.style.color = `var(${name})`
    return style.color
  }
  const entries = Object.entries(colours).map(([part, name]) => [part, read(name)])
  probe.style.color = ''
  return {
    ...(Object.fromEntries(entries) as Record<keyof typeof colours, string>),
    font: style.fontFamily,
    fontSize: Number.parseFloat(style.fontSize),
  }
}
