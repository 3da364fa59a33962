/**
 * What each frame cost the page's own thread, from a trace of Chromium's.
 *
 * A frame lasts from one commit to the next. Its script is the time in handlers
 * and callbacks, its paint the time in style, layout, painting and handing over
 * to the compositor; canvas calls are script, and what they are drawn with on
 * this thread is counted wherever it falls.
 */
const script = new Set(['EventDispatch', 'FireAnimationFrame', 'FunctionCall', 'RunMicrotasks', 'TimerFire'])
const paint = new Set(['UpdateLayoutTree', 'Layout', 'PrePaint', 'Paint', 'Layerize', 'Commit', 'CompositeLayers', 'HitTest'])

export function frames(events) {
  const main = events.find((one) => one.name === 'thread_name' && one.args.name === 'CrRendererMain' && busy(events, one))
  const own = events
    .filter((one) => one.pid === main.pid && one.tid === main.tid && one.ph === 'X')
    .toSorted((a, b) => a.ts - b.ts || b.dur - a.dur)
  const ends = own.filter((one) => one.name === 'Commit').map((one) => one.ts + one.dur)
  const list = ends.slice(1).map(() => ({ script: 0, paint: 0, whole: 0 }))
  // Of nested events of one sort only the outermost counts.
  for (const [sort, names] of [
    ['script', script],
    ['paint', paint],
    ['whole', new Set([...script, ...paint])],
  ]) {
    let until = -1
    for (const one of own) {
      if (!names.has(one.name) || one.ts < until) continue
      until = one.ts + one.dur
      const frame = ends.findIndex((end) => one.ts < end) - 1
      if (frame >= 0) list[frame][sort] += one.dur / 1000
    }
  }
  return list
}

/** A browser has several renderers; the page's is the one that dispatched its pointer's events. */
function busy(events, thread) {
  return events.some(
    (one) =>
      one.pid === thread.pid && one.tid === thread.tid && one.name === 'EventDispatch' && one.args?.data?.type === 'pointermove',
  )
}
