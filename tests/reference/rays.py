"""Level rays through an outline: where ink begins and ends on them, by non-zero winding."""

import numpy as np


def crossings(edges, heights):
    """Every crossing of the level rays at `heights` (ascending) with `edges`.

    Returns arrays ray, x, direction, lean, ordered by ray and x. `lean` is the
    edge's dx/dy there. An edge covers its lower end and not its upper one, so a
    ray through a joint is counted once, and level edges never.
    """
    x0, y0, x1, y1 = edges.T
    rising = y1 > y0
    low, high = np.minimum(y0, y1), np.maximum(y0, y1)
    first = np.searchsorted(heights, low, side="left")
    counts = np.searchsorted(heights, high, side="left") - first
    edge = np.repeat(np.arange(len(edges)), counts)
    starts = np.cumsum(counts) - counts
    ray = np.arange(len(edge)) - np.repeat(starts, counts) + np.repeat(first, counts)
    with np.errstate(divide="ignore", invalid="ignore"):
        leans = (x1 - x0) / (y1 - y0)
    lean = leans[edge]
    x = x0[edge] + (heights[ray] - y0[edge]) * lean
    direction = np.where(rising[edge], 1, -1)
    order = np.lexsort((x, ray))
    return ray[order], x[order], direction[order], lean[order]


def ink(edges, heights):
    """The stretches of ink on each ray: arrays ray, left, right, lean left, lean right."""
    ray, x, direction, lean = crossings(edges, heights)
    # Contours are closed, so each ray's winding returns to zero at its end and
    # one running sum serves all rays.
    winding = np.cumsum(direction)
    inside = winding != 0
    before = np.concatenate([[False], inside[:-1]])
    starts, ends = np.flatnonzero(inside & ~before), np.flatnonzero(~inside & before)
    return ray[starts], x[starts], x[ends], lean[starts], lean[ends]
