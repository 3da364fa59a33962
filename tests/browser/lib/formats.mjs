import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { font } from './fonts.mjs'
import { root } from './place.mjs'

const reference = join(root, 'tests/reference')

/** The faces that `fonts.toml` lists for a use, by reading its lines: one face a line. */
export function fontsOf(use) {
  const faces = []
  let from = ''
  for (const line of readFileSync(join(reference, 'fonts.toml'), 'utf8').split('\n')) {
    const named = /^name = "(.+)"/.exec(line)
    if (named) from = named[1]
    const face = /id = "([^"]+)", file = "([^"]+)", use = \[([^\]]*)\].*?(?:covers = "([^"]*)")? \}/.exec(line)
    if (!face || !face[3].includes(`"${use}"`)) continue
    const [, id, file, , covers = ''] = face
    faces.push({ id, from, covers, name: file.split('/').at(-1), kept: `${id}.${file.split('.').at(-1)}` })
  }
  return faces
}

/** How many letters of the line have ink that was read. */
const inked = (page, { items }) =>
  page.evaluate(
    (glyphs) => {
      const lab = document.querySelector('lab-sheet')
      return glyphs.filter((glyph) => lab.letter(glyph)?.bounds != null).length
    },
    items.map((item) => item.glyph).filter((glyph) => glyph !== null),
  )

/** Opens a font as a person does, by its first face, and tells what the page shows. */
export async function shows(lab, face) {
  const { page } = lab
  const before = await page.evaluate(() => {
    const { state } = document.querySelector('lab-sheet')
    window.reportBefore = state.font?.report
    window.noticeBefore = state.notice
    return null
  })
  void before
  await lab.drop([{ name: face.name, bytes: font(face.kept) }])
  const asked = page.getByRole('dialog', { name: 'Which face shall open?' })
  const settled = page.waitForFunction(
    () => {
      const { font, notice, opening } = document.querySelector('lab-sheet').state
      return opening === null && (font?.report !== window.reportBefore || (notice && notice !== window.noticeBefore))
    },
    undefined,
    { timeout: 60_000 },
  )
  const first = await Promise.race([
    asked.waitFor({ timeout: 60_000 }).then(() => 'asked', () => 'quiet'),
    settled.then(() => 'settled'),
  ])
  if (first === 'asked') await page.keyboard.press('Enter')
  await settled
  const { font: open, notice, parcel, stage } = await lab.state()
  const refused = notice?.kind === 'refused'
  // A letter is shown where its outline was read: one that could not be has a sentence and no advance of ink.
  const letters = refused ? 0 : await inked(page, stage)
  return {
    face,
    letters,
    said: notice?.sentence ?? '',
    name: refused ? '' : `${open.report.family} ${open.report.style}`,
    outlines: refused ? '' : open.report.outlines,
    glyphs: refused ? 0 : open.report.glyphCount,
    faces: refused ? 0 : (parcel?.file.faces.length ?? 1),
    axes: refused ? [] : (parcel?.report.axes.map((axis) => axis.tag) ?? []),
    named: refused ? 0 : (parcel?.report.instances.length ?? 0),
    line: stage.text,
  }
}

/** Writes what was shown as a table that people read. */
export function written(rows) {
  const cell = (text) => String(text).replaceAll('|', '\\|')
  const lines = rows.map(({ face, ...row }) => {
    const opened = row.letters > 0
    const shown = opened
      ? [
          row.name,
          `${row.outlines}, ${row.glyphs} glyphs`,
          row.faces > 1 ? `face 1 of ${row.faces}` : '',
          row.axes.length > 0 ? `axes ${row.axes.join(' ')}` : '',
          row.named > 0 ? `${row.named} named positions` : '',
        ]
          .filter(Boolean)
          .join('; ')
      : 'not opened'
    return `| ${[face.id, face.from, face.covers, shown, row.said].map(cell).join(' | ')} |`
  })
  const text = `# What the page shows of open fonts of all formats

Written by \`tests/browser/formats.test.mjs\`, which drops each of them on the page. Which package each comes from,
under which licence and with which checksum, is in \`fonts.toml\`.

| Font | Package | What it is | What the page shows | What it says |
| --- | --- | --- | --- | --- |
${lines.join('\n')}
`
  writeFileSync(join(reference, 'formats.md'), text)
}
