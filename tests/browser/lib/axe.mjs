import assert from 'node:assert/strict'
import { AxeBuilder } from '@axe-core/playwright'

/** Fails on anything that axe finds against WCAG 2.2 AA or its own best practice. */
export async function axe(page, what) {
  // The page has no frames of other sites: without the blank page that those would need, Firefox takes part too.
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode()
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze()
  const said = violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target} ${node.failureSummary}`))
  assert.deepEqual(said, [], what)
}
