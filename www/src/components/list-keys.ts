/**
 * The arrow keys of a list that is one stop of the Tab key: Up, Down, Home and
 * End move the focus among its choices, of which one has a tab index of 0.
 */
export function moveInList(event: KeyboardEvent, choices: Iterable<HTMLElement>): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return
  const all = [...choices]
  const at = all.findIndex((one) => one.tabIndex === 0)
  const steps: Record<string, number> = {
    ArrowDown: Math.min(at + 1, all.length - 1),
    ArrowUp: Math.max(at - 1, 0),
    Home: 0,
    End: all.length - 1,
  }
  const next = steps[event.key]
  if (next === undefined) return
  event.preventDefault()
  event.stopPropagation()
  all[next]?.focus()
}
