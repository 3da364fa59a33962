import assert from 'node:assert/strict'
import { AxeBuilder } from '@axe-core/playwright'

const all = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']

/** The rules that can be broken in one scheme of colours and kept in the other. */
const ofColour = ['color-contrast', 'link-in-text-block']

/** Fails on anything that axe finds against WCAG 2.2 AA or its own best practice; of some rules only, if they are named. */
export async function axe(page, what, rules = null) {
  // The page has no frames of other sites: without the blank page that those would need, Firefox takes part too.
  const builder = new AxeBuilder({ page }).setLegacyMode()
  const { violations } = await (rules ? builder.withRules(rules) : builder.withTags(all)).analyze()
  const said = violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target} ${node.failureSummary}`))
  assert.deepEqual(said, [], what)
}

/** Ends what is on its way from one colour to another: in its midst no two stand apart. */
const settle = (page) =>
  page.evaluate(() => {
    const roots = [document]
    for (const root of roots) {
      for (const { shadowRoot } of root.querySelectorAll('*')) if (shadowRoot) roots.push(shadowRoot)
      for (const one of root.getAnimations()) if (one instanceof CSSTransition) one.finish()
    }
  })

/** The same of a page that is light, then of what can differ while it is dark; a picture of each, if it has a name. */
export async function axeInBoth(lab, what, name = null) {
  const look = async (scheme, rules) => {
    await lab.page.emulateMedia({ colorScheme: scheme })
    await lab.frame()
    await settle(lab.page)
    await axe(lab.page, `${what}, ${scheme}`, rules)
    if (name) await lab.picture(name(scheme))
  }
  await look('light', null)
  await look('dark', ofColour)
  await lab.page.emulateMedia({ colorScheme: 'light' })
}
