/** Fulfilled in a task of its own: what the page was asked meanwhile, and its next picture, can come in between. */
export const nextTask = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0))

/** Fulfilled in a task of its own that nothing else waits behind; where a browser knows no such tasks, in the next. */
export const idleTask = (): Promise<void> =>
  'scheduler' in globalThis ? scheduler.postTask(() => {}, { priority: 'background' }) : nextTask()
