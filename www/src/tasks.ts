/** Fulfilled in a task of its own: what the page was asked meanwhile, and its next picture, can come in between. */
export const nextTask = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0))
