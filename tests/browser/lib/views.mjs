/** Every view of the page that a person can come to, and how: for checks that hold for all of them. */
import { font } from './fonts.mjs'

const room = (lab, name) => lab.page.getByRole('dialog', { name })

async function example(lab) {
  await lab.press('Shift+S')
  await lab.page.getByRole('button', { name: 'Show an example shelf' }).click()
  await lab.page.getByRole('button', { name: /^Marrowbone/ }).waitFor()
}

export const views = {
  'the sample': async () => {},
  'a letter chosen': async (lab) => {
    await lab.press('n')
  },
  'the calliper': async (lab) => {
    await lab.press('Shift+C')
  },
  'a finding with words and a mark': async (lab) => {
    await lab.press('j')
    await lab.press('Shift+O')
    await lab.press('w')
  },
  'the figures of the line': async (lab) => {
    await lab.page.getByText('Figures of every letter on the line').click()
  },
  'the licence': async (lab) => {
    await lab.page.getByTitle('Licence and embedding rights').click()
  },
  'the keys': async (lab) => {
    await lab.press('Shift+Slash')
    await room(lab, 'Keys').waitFor()
  },
  'the guide': async (lab) => {
    await lab.press('Shift+Slash')
    await room(lab, 'Keys').getByRole('button', { name: 'Try a first review' }).click()
    await lab.page.locator('review-guide h2').waitFor()
  },
  'axes of a variable font': async (lab) => {
    await lab.open({ name: 'inter.ttf', bytes: font('inter-vf.ttf') }, 'Inter')
    await lab.judged()
    await lab.page.getByRole('slider', { name: 'Weight' }).waitFor()
  },
  'the choice of a face': async (lab) => {
    await lab.drop([{ name: 'wqy-microhei.ttc', bytes: font('wqy-microhei.ttc') }])
    await room(lab, 'Which face shall open?').waitFor()
  },
  'an empty shelf': async (lab) => {
    await lab.press('Shift+S')
    await lab.page.getByText('Nothing is on the shelf yet').waitFor()
  },
  'a full shelf': example,
  'a font taken down': async (lab) => {
    await example(lab)
    await lab.page.getByRole('button', { name: /^Marrowbone/ }).click()
    await lab.page.getByText(/^Portuguese: /).waitFor()
  },
  'the sheet': async (lab) => {
    await lab.press('j')
    await lab.press('w')
    await lab.press('Shift+H')
    await lab.page.locator('desk-handback .sheet').waitFor()
  },
  'a change tried': async (lab) => {
    await lab.press('Shift+R')
    await room(lab, 'The redraw').getByLabel('Letter', { exact: true }).fill('n')
    await room(lab, 'The redraw').getByRole('slider', { name: /^Ink width/ }).waitFor()
  },
  'the lessons': async (lab) => {
    await lab.press('Shift+M')
    await lab.page.locator('lesson-page').waitFor()
  },
}
