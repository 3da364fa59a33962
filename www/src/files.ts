/** How a font or a drawing comes in: dropped anywhere, picked, or pasted. */

import { drawingEndings, isSvgText } from './redraw/kinds'

/** A larger file is no font that anyone drew: the largest in use are some 50 MB. */
export const MOST_BYTES = 256 * 1024 * 1024

export interface Arrival {
  readonly file: File | null
  /** What to say if there is no file to open, or more than one. */
  readonly sentence: string | null
}

export const fontEnding = /\.(?:otf|ttf|otc|ttc|woff2?)$/i

/** Of several files, the one to open: the first that is called like a font, else the first. */
export function choose(files: readonly File[]): Arrival {
  const file = files.find((one) => fontEnding.test(one.name)) ?? files[0]
  if (!file) return { file: null, sentence: 'Nothing in there is a file. Drop a font file (.otf or .ttf).' }
  if (file.size > MOST_BYTES) {
    return {
      file: null,
      sentence: `${file.name} is larger than any font (over 256 MB). Drop a font file (.otf or .ttf).`,
    }
  }
  const others = files.length - 1
  if (others === 0) return { file, sentence: null }
  return {
    file,
    sentence: `The stage holds one font at a time: ${file.name} is open, ${
      others === 1 ? 'the other file was' : `the ${others} other files were`
    } left alone.`,
  }
}

/** What a drop brought. A folder looks like a file without being one. */
export function fromDrop(transfer: DataTransfer): Arrival {
  const items = [...transfer.items].filter((item) => item.kind === 'file')
  const folder = items.some((item) => item.webkitGetAsEntry?.()?.isDirectory)
  const files = [...transfer.files]
  if (folder && files.length <= items.length && files.length === 1) {
    return {
      file: null,
      sentence: 'That is a folder. Open it, and drop a font file (.otf or .ttf) from inside.',
    }
  }
  return choose(files)
}

export const bringsFiles = (transfer: DataTransfer | null): boolean =>
  transfer?.types.includes('Files') ?? false

const isField = (event: Event): boolean =>
  event.composedPath().some((one) => one instanceof HTMLTextAreaElement || one instanceof HTMLInputElement)

interface Guests {
  hover(over: boolean): void
  arrive(arrival: Arrival): void
}

/** Takes drops and pastes on the whole page. Returns how to stop. */
export function receive(target: Window, guests: Guests): () => void {
  const end = new AbortController()
  const { signal } = end
  // Entering a child counts as entering again and leaving the parent: only the balance tells.
  let depth = 0
  const away = () => {
    depth = 0
    guests.hover(false)
  }
  target.addEventListener(
    'dragenter',
    (event) => {
      if (!bringsFiles(event.dataTransfer)) return
      event.preventDefault()
      depth += 1
      guests.hover(true)
    },
    { signal },
  )
  target.addEventListener(
    'dragover',
    (event) => {
      if (!bringsFiles(event.dataTransfer)) return
      event.preventDefault()
      if (event.dataTransfer) event.dataTransfer.dropEffect = 'copy'
    },
    { signal },
  )
  target.addEventListener(
    'dragleave',
    (event) => {
      if (!bringsFiles(event.dataTransfer)) return
      depth -= 1
      if (depth <= 0) away()
    },
    { signal },
  )
  target.addEventListener(
    'drop',
    (event) => {
      if (!event.dataTransfer || !bringsFiles(event.dataTransfer)) return
      event.preventDefault()
      away()
      guests.arrive(fromDrop(event.dataTransfer))
    },
    { signal },
  )
  target.addEventListener(
    'paste',
    (event) => {
      const files = [...(event.clipboardData?.files ?? [])]
      const text = event.clipboardData?.getData('text/plain') ?? ''
      // Drawing programs copy an outline as the text of an SVG. Into a field it goes as text.
      if (files.length === 0 && isSvgText(text) && !isField(event)) files.push(new File([text], 'pasted.svg'))
      if (files.length === 0) return
      event.preventDefault()
      guests.arrive(choose(files))
    },
    { signal },
  )
  return () => end.abort()
}

/** Asks for a file. Resolves to nothing if the person thinks better of it. */
export function pick(document: Document): Promise<Arrival | null> {
  const input = document.createElement('input')
  input.type = 'file'
  input.accept = `.otf,.ttf,.otc,.ttc,.woff,.woff2,font/*,${drawingEndings}`
  return new Promise((resolve) => {
    input.addEventListener('change', () => resolve(choose([...(input.files ?? [])])))
    input.addEventListener('cancel', () => resolve(null))
    input.click()
  })
}
