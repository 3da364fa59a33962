/**
 * Which files need the module of unusual formats before they can be opened. Told
 * from a file's first bytes and its table directory, so that the module is
 * fetched for those files alone.
 */

/** Tables that something is to be done or said about. */
const SPECIAL = new Set(['fvar', 'CFF2', 'COLR', 'SVG ', 'CBDT', 'EBDT', 'sbix'])

const HEADER = 12
const RECORD = 16

export function isUnusual(bytes: Uint8Array): boolean {
  if (isPacked(bytes)) return true
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const tag = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4))
  const kind = tag(0)
  if (kind !== '\0\x01\0\0' && kind !== 'OTTO' && kind !== 'true') return false
  try {
    for (let left = view.getUint16(4), at = HEADER; left > 0; left -= 1, at += RECORD) {
      const name = tag(at)
      if (SPECIAL.has(name)) return true
      if (name === 'cmap' && !hasUnicode(view, view.getUint32(at + 8))) return true
    }
  } catch {
    // A directory that ends early: the lab has a sentence for that.
  }
  return false
}

/** Whether a file is packed for the web, or holds several faces. */
export const isPacked = (bytes: Uint8Array): boolean =>
  ['wOFF', 'wOF2', 'ttcf'].includes(String.fromCharCode(...bytes.subarray(0, 4)))

/** Whether a cmap table names a map of Unicode (OpenType, cmap, "Encoding records and encodings"). */
function hasUnicode(view: DataView, cmap: number): boolean {
  for (let left = view.getUint16(cmap + 2), at = cmap + 4; left > 0; left -= 1, at += 8) {
    const [platform, encoding] = [view.getUint16(at), view.getUint16(at + 2)]
    if (platform === 0 || (platform === 3 && (encoding === 1 || encoding === 10))) return true
  }
  return false
}
