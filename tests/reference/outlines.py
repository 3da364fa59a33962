"""A font's outlines as plain segments, read with fontTools and with nothing of ours."""

import logging

import numpy as np
from fontTools.pens.basePen import BasePen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont

# fontTools warns of oddities in good fonts; they are not this script's to report.
logging.disable(logging.WARNING)

# A quarter of a circle in 48 chords loses 0.018% of the disc that it bounds.
# Fewer, and a heavy round letter would use up much of the 0.1% that areas are
# held to; more only costs time.
CHORDS = 48


class Segments(BasePen):
    """Collects a glyph, components resolved, as cubic segments of closed contours."""

    def __init__(self, glyphs):
        super().__init__(glyphs)
        self.contours = []
        self.points = {"on": 0, "off": 0}

    def _moveTo(self, point):
        self.contours.append([])
        self._start = point

    def _lineTo(self, point):
        self._add([self._getCurrentPoint(), point])

    def _curveToOne(self, first, second, point):
        self._add([self._getCurrentPoint(), first, second, point])

    def _qCurveToOne(self, control, point):
        self._add([self._getCurrentPoint(), control, point])

    def _add(self, points):
        self.points["on"] += 1
        self.points["off"] += len(points) - 2
        self.contours[-1].append(points)

    def _closePath(self):
        if self.contours and self.contours[-1]:
            last = self.contours[-1][-1][-1]
            if last != self._start:
                self.contours[-1].append([last, self._start])
        elif self.contours:
            self.contours.pop()

    _endPath = _closePath


# A composite's flag (OpenType, glyf chapter).
USE_MY_METRICS = 0x0200


def open_font(path, face=0):
    """The face `face` of the file at `path`."""
    return TTFont(path, fontNumber=face, lazy=True)


def draw(font, glyphs, name, pen):
    """Draws the glyph `name` where it stands beside its origin.

    A TrueType outline is moved so that its left edge lies at the left side
    bearing of the hmtx table. fontTools does so for simple glyphs and not for
    composites, which FreeType does move; so composites are moved here. One that
    uses a component's metrics moves as that component does (OpenType, glyf
    chapter, flag USE_MY_METRICS), as FreeType reads it.
    """
    glyph = font["glyf"][name] if "glyf" in font else None
    if glyph is not None and glyph.isComposite():
        holder = metrics_of(font, name)
        move = font["hmtx"][holder][1] - font["glyf"][holder].xMin
        if move:
            pen = TransformPen(pen, (1, 0, 0, 1, move, 0))
    glyphs[name].draw(pen)


def metrics_of(font, name, depth=0):
    """The glyph whose metrics the composite `name` uses: itself as a rule."""
    glyph = font["glyf"][name]
    if depth < 8 and glyph.isComposite():
        for part in glyph.components:
            if part.flags & USE_MY_METRICS:
                return metrics_of(font, part.glyphName, depth + 1)
    return name


def segments_of(font, glyphs, name):
    """The glyph `name` as `Segments`."""
    pen = Segments(glyphs)
    draw(font, glyphs, name, pen)
    return pen


def flatten(contours, chords=CHORDS):
    """Chords of all contours as an array of rows x0, y0, x1, y1."""
    by_degree = {2: [], 3: [], 4: []}
    for contour in contours:
        for points in contour:
            by_degree[len(points)].append(points)
    pieces = []
    if by_degree[2]:
        pieces.append(np.array(by_degree[2], float).reshape(-1, 4))
    t = np.linspace(0.0, 1.0, chords + 1)[None, :, None]
    for degree, weights in (
        (3, ((1 - t) ** 2, 2 * t * (1 - t), t**2)),
        (4, ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)),
    ):
        if by_degree[degree]:
            controls = np.array(by_degree[degree], float)
            curve = sum(w * controls[:, i : i + 1, :] for i, w in enumerate(weights))
            # Neighbouring segments must share their joint to the last bit, or a
            # ray could slip through between them.
            curve[:, 0], curve[:, -1] = controls[:, 0], controls[:, -1]
            pieces.append(np.concatenate([curve[:, :-1], curve[:, 1:]], axis=2).reshape(-1, 4))
    if not pieces:
        return np.zeros((0, 4))
    return np.concatenate(pieces)
