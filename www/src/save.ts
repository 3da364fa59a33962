/** Files for the person to keep: handed to the browser from memory, so that no request leaves the page. */

/** "MyFont-measures.json" of "MyFont.otf". */
export function measuresName(fileName: string): string {
  const stem = fileName.replace(/\.[a-z0-9]{1,5}$/i, '').trim()
  return `${stem || 'font'}-measures.json`
}

export function save(document: Document, blob: Blob, name: string): void {
  const address = URL.createObjectURL(blob)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  // The browser has begun to read by then; the blob must not stay in memory for as long as the page.
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
