export const sameList = <T>(
  a: readonly T[],
  b: readonly T[],
  same: (one: T, other: T) => boolean = Object.is,
): boolean => a.length === b.length && a.every((one, index) => same(one, b[index] as T))
