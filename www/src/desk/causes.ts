import { causeName } from '../findings'
import type { Cause } from '../generated/Cause'

/** Every cause that a finding can have. */
export const cause = Object.keys(causeName) as readonly Cause[]
