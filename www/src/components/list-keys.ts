/** The keys that go back and on in a list, by how it lies. */
const KEYS = { column: ['ArrowUp', 'ArrowDown'], row: ['ArrowLeft', 'ArrowRight'] } as const

/**
 * The arrow keys of a list that is one stop of the Tab key: Up and Down (Left and
 * Right in a row), Home and End move the focus among its choices, of which one has
 * a tab index of 0.
 */
export function moveInList(
  event: KeyboardEvent,
  choices: Iterable<HTMLElement>,
  lies: keyof typeof KEYS = 'column',
): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return
  const all = [...choices]
  const at = all.findIndex((one) => one.tabIndex === 0)
  const [back, on] = KEYS[lies]
  const steps: Record<string, number> = {
    [on]: Math.min(at + 1, all.length - 1),
    [back]: Math.max(at - 1, 0),
    Home: 0,
    End: all.length - 1,
  }
  const next = steps[event.key]
  if (next === undefined) return
  event.preventDefault()
  event.stopPropagation()
  all[next]?.focus()
}
