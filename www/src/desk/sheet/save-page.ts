/** The sheet as a file of its own, which opens anywhere and asks for nothing. */

import { sheetStyle } from './sheet-document'

/** What a saved sheet may do: be read. */
const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"

export function pageOf(sheet: Element, title: string): string {
  const page = document.implementation.createHTMLDocument(title)
  page.documentElement.lang = 'en-GB'
  const meta = (attributes: Record<string, string>): void => {
    const element = page.createElement('meta')
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value)
    page.head.prepend(element)
  }
  meta({ name: 'generator', content: 'Counterpoise' })
  meta({ name: 'viewport', content: 'width=device-width, initial-scale=1' })
  meta({ 'http-equiv': 'Content-Security-Policy', content: POLICY })
  meta({ charset: 'utf-8' })
  const style = page.createElement('style')
  style.textContent = `body { margin: 0; background: #e9e5db; }\n@media print { body { background: none; } }\n${sheetStyle.cssText}`
  page.head.append(style)
  const main = page.createElement('main')
  main.append(page.importNode(copyOf(sheet), true))
  page.body.append(main)
  return `<!doctype html>\n${page.documentElement.outerHTML}\n`
}

/** The sheet alone: what the page's own drawing leaves between the elements means nothing to a reader. */
export function copyOf(sheet: Element): Element {
  const copy = sheet.cloneNode(true) as Element
  const walker = document.createTreeWalker(copy, NodeFilter.SHOW_COMMENT)
  const comments: Node[] = []
  while (walker.nextNode()) comments.push(walker.currentNode)
  for (const comment of comments) comment.parentNode?.removeChild(comment)
  return copy
}
