/**
 * Does what is costly when it is first asked for, and not again; but what could
 * not be fetched once may be another time.
 */
export function once<T>(load: () => Promise<T>): () => Promise<T> {
  let loaded: Promise<T> | undefined
  return async () => {
    loaded ??= load()
    try {
      return await loaded
    } catch (error) {
      loaded = undefined
      throw error
    }
  }
}
