/**
 * What each frame cost the page's own thread, from a trace of Chromium's.
 *
 * A frame lasts from one animation frame's callbacks to the next's. Its script
 * is the time in handlers and callbacks (calls on the canvas among them), its
 * paint the time in style, layout, painting and handing the picture over.
 * `cpu` is what the thread itself worked; `wall` also counts the time in which
 * other programs had the processor.
 */
const script = ['EventDispatch', 'FireAnimationFrame', 'FunctionCall', 'RunMicrotasks', 'TimerFire']
const paint = ['UpdateLayoutTree', 'Layout', 'PrePaint', 'Paint', 'Layerize', 'Commit', 'HitTest']

export const categories = ['devtools.timeline', 'disabled-by-default-devtools.timeline']

export function frames(events) {
  const page = events.find((one) => one.name === 'FireAnimationFrame')
  const own = events
    .filter((one) => one.pid === page.pid && one.tid === page.tid && one.ph === 'X')
    .toSorted((a, b) => a.ts - b.ts || b.dur - a.dur)
  const starts = own.filter((one) => one.name === 'FireAnimationFrame').map((one) => one.ts)
  const list = starts.map(() => ({ script: 0, cpu: 0, wall: 0 }))
  const add = (names, count) => {
    // Of nested events only the outermost counts.
    let until = -1
    let frame = 0
    for (const one of own) {
      if (!names.has(one.name) || one.ts < until || one.ts < starts[0]) continue
      until = one.ts + one.dur
      while (frame + 1 < starts.length && starts[frame + 1] <= one.ts) frame += 1
      count(list[frame], one)
    }
  }
  add(new Set(script), (frame, one) => {
    frame.script += one.tdur / 1000
  })
  add(new Set([...script, ...paint]), (frame, one) => {
    frame.cpu += one.tdur / 1000
    frame.wall += one.dur / 1000
  })
  // The last may have been cut off.
  return list.slice(0, -1)
}

/**
 * What each task took of the page's own thread, the longest first, in
 * milliseconds: its own time, whatever else the machine was doing, and without
 * the garbage collector's, whose longest stretch is told apart. Asks for the
 * categories `toplevel` and `v8` too.
 */
export function tasksOf(events) {
  const page = events.find((one) => one.name === 'FireAnimationFrame')
  const own = events.filter((one) => one.pid === page.pid && one.tid === page.tid && one.ph === 'X')
  const collections = own.filter((one) => /^M(?:aj|in)orGC$/.test(one.name))
  const tasks = own.filter((one) => one.name.endsWith('::RunTask'))
  const length = (task) => {
    const inside = collections.filter((one) => one.ts >= task.ts && one.ts < task.ts + task.dur)
    return (task.tdur - inside.reduce((sum, one) => sum + one.tdur, 0)) / 1000
  }
  return {
    tasks: tasks.map(length).toSorted((a, b) => b - a),
    collected: Math.max(0, ...collections.map((one) => one.tdur / 1000)),
  }
}

/** Tasks of the page's own thread: milliseconds that each worked, and that it took by the clock. */
export function tasks(events) {
  const page = events.find((one) => one.name === 'FireAnimationFrame')
  return events
    .filter((one) => one.pid === page.pid && one.tid === page.tid && one.ph === 'X' && one.name === 'RunTask')
    .map((one) => ({ worked: one.tdur / 1000, clock: one.dur / 1000 }))
}
