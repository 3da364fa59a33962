/** An unusual file made a plain font, to be held beside the one that is open. */

import type { FaceReport } from '../generated/FaceReport'
import { askFace } from './face-choice'
import { asDrawn, type Parcel, styleOf } from './parcel'
import { Parcels } from './parcels'

/**
 * A plain font of a file; null if the person chose none of its faces. One that
 * varies stands where the open font does, if that has the same axes, and else as
 * it was drawn. A worker of its own does it, and ends: the other holds what is open.
 */
export async function plainOf(
  bytes: Uint8Array<ArrayBuffer>,
  fileName: string,
  open: Parcel | null,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const parcels = new Parcels()
  try {
    const { faces } = await parcels.open(bytes)
    const face = faces.length > 1 ? await askFace(faces, fileName, false) : 0
    if (face === null) return null
    const report = await parcels.face(face)
    const position = beside(report, open)
    return await parcels.cut({ face, position, style: position && styleOf(report, position) })
  } finally {
    parcels.end()
  }
}

/** Where its axes are to stand; null where it has none. */
export function beside(report: FaceReport, open: Parcel | null): readonly number[] | null {
  if (report.axes.length === 0) return null
  const axes = open?.position.length ? open.report.axes : []
  const same = axes.length === report.axes.length && axes.every(({ tag }, at) => tag === report.axes[at]?.tag)
  if (!open || !same) return asDrawn(report)
  return report.axes.map(({ min, max, default: drawn }, at) =>
    Math.min(max, Math.max(min, open.position[at] ?? drawn)),
  )
}
