"""Thickness of the stems of H, I, l and n by rays, as a second opinion.

Nothing is fitted and no stroke is looked for: rays cross the letter, and on
those that cross as many strokes as the letter has stems, each stretch of ink is
turned perpendicular by the lean of its own two edges.
"""

import numpy as np

from outlines import flatten, segments_of
from rays import ink

# How many stems a level ray meets in each letter.
STEMS = {"H": 2, "I": 1, "l": 1, "n": 2}

# Rays through a letter: odd, so that one runs through the middle.
RAYS = 81

# The middle of the letter's height, away from serifs and terminals.
FROM, TO = 0.15, 0.85


def stems(font, glyphs, letter):
    """One dict a stem, from left to right; None where the letter has none to find."""
    name = (font.getBestCmap() or {}).get(ord(letter))
    if name is None:
        return None
    edges = flatten(segments_of(font, glyphs, name).contours)
    if not len(edges):
        return None
    bottom, top = edges[:, (1, 3)].min(), edges[:, (1, 3)].max()
    heights = bottom + (top - bottom) * np.linspace(FROM, TO, RAYS)
    ray, left, right, lean_left, lean_right = ink(edges, heights)
    per_ray = np.bincount(ray, minlength=RAYS)
    wanted = STEMS[letter]
    use = per_ray[ray] == wanted
    if np.count_nonzero(per_ray == wanted) < RAYS // 8:
        return None
    ray, left, right = ray[use], left[use], right[use]
    # The stroke's own direction halves the angle between its two edges.
    lean = (np.arctan(lean_left[use]) + np.arctan(lean_right[use])) / 2
    thickness = (right - left) * np.cos(lean)
    found = []
    for stem in range(wanted):
        mine = np.arange(len(thickness)) % wanted == stem
        values = thickness[mine]
        middle = (left[mine] + right[mine]) / 2
        # Straight where the thickness stays and the edges keep one direction.
        found.append(
            {
                "median": float(np.median(values)),
                "level": float(np.median((right - left)[mine])),
                "spread": float(np.subtract(*np.percentile(values, [75, 25]))),
                "lean": float(np.degrees(np.median(lean[mine]))),
                "turn": float(np.degrees(np.subtract(*np.percentile(lean[mine], [75, 25])))),
                "x": float(np.median(middle)),
                "rays": int(len(values)),
            }
        )
    return found


def crossbar(font, glyphs):
    """Thickness of H's bar, by upright rays through its middle third; None without one."""
    name = (font.getBestCmap() or {}).get(ord("H"))
    if name is None:
        return None
    edges = flatten(segments_of(font, glyphs, name).contours)
    if not len(edges):
        return None
    # A level ray through the drawing with x and y exchanged is an upright ray.
    edges = edges[:, (1, 0, 3, 2)]
    left, right = edges[:, (1, 3)].min(), edges[:, (1, 3)].max()
    places = left + (right - left) * np.linspace(0.4, 0.6, 21)
    ray, low, high, lean_low, lean_high = ink(edges, places)
    single = np.bincount(ray, minlength=len(places))[ray] == 1
    if not np.any(single):
        return None
    lean = (np.arctan(lean_low) + np.arctan(lean_high)) / 2
    return float(np.median(((high - low) * np.cos(lean))[single]))


def round_sides(font, glyphs, letter):
    """Thickness of a round letter at its left and right extremes.

    Between the boxes of its outer contour and of its counter: what a hint for an
    upright stem says of a round. None for a letter that is not two such contours.
    """
    name = (font.getBestCmap() or {}).get(ord(letter))
    contours = segments_of(font, glyphs, name).contours if name else []
    if len(contours) != 2:
        return None
    boxes = [flatten([contour])[:, (0, 2)] for contour in contours]
    outer, inner = sorted(boxes, key=lambda box: box.min())
    left, right = inner.min() - outer.min(), outer.max() - inner.max()
    return [float(left), float(right)] if left > 0 and right > 0 else None
