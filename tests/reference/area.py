"""The area that a fill by non-zero winding covers, overlaps counted once."""

import numpy as np

from rays import ink

# Ink widths are integrated between neighbouring heights of note, where they run
# smoothly, so three points of Gauss's rule a piece do.
NODES, WEIGHTS = np.polynomial.legendre.leggauss(3)

# Pieces that a glyph's height is cut into at the least: round tops grow like a
# square root, which the rule follows only in short steps.
PIECES = 150


def filled_area(edges):
    """Area covered by the outline with these `edges`."""
    edges = edges[edges[:, 1] != edges[:, 3]]
    if not len(edges):
        return 0.0
    ends = np.unique(np.concatenate([edges[:, 1], edges[:, 3]]))
    even = np.linspace(ends[0], ends[-1], PIECES + 1)
    # All joints of the drawing where they are few; where a drawing has thousands
    # of points, steps as fine as they are serve as well and cost less.
    cuts = np.union1d(ends, even) if len(ends) < 2000 else np.linspace(ends[0], ends[-1], 4000)
    middle, half = (cuts[1:] + cuts[:-1]) / 2, (cuts[1:] - cuts[:-1]) / 2
    # Between cuts that all but coincide, rounding could swap the heights.
    middle, half = middle[half > 1e-9], half[half > 1e-9]
    heights = (middle[:, None] + half[:, None] * NODES).ravel()
    weights = (half[:, None] * WEIGHTS).ravel()
    ray, left, right, _, _ = ink(edges, heights)
    return float(np.sum((right - left) * weights[ray]))
