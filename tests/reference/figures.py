"""Prints a font's reference figures as JSON, one object a font.

    python figures.py glyphs FONT...   every glyph: advance, bearings, bounds, areas, points
    python figures.py stems FONT...    stems of H, I, l, n, the bar, and what the font declares

A FONT may end in `#2` to mean the third face of a collection. A figure that a
glyph doesn't have is null.
"""

import json
import sys

from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import BoundsPen

from area import filled_area
from declared import declared
from outlines import draw, flatten, open_font, segments_of
from stems import STEMS, crossbar, round_sides, stems


def glyph_figures(font, glyphs, name):
    """All figures of one glyph."""
    # A lone point draws nothing, so it does not stretch the ink.
    bounds = BoundsPen(glyphs, ignoreSinglePoints=True)
    draw(font, glyphs, name, bounds)
    area = AreaPen(glyphs)
    draw(font, glyphs, name, area)
    outline = segments_of(font, glyphs, name)
    advance = glyphs[name].width
    box = bounds.bounds
    return {
        "advance": advance,
        "leftBearing": box[0] if box else None,
        "rightBearing": advance - box[2] if box else None,
        "bounds": box,
        "signedArea": area.value,
        "filledArea": filled_area(flatten(outline.contours)),
        "contours": len(outline.contours),
        "points": outline.points,
    }


def all_glyphs(font):
    """Figures of every glyph, in the font's order."""
    glyphs = font.getGlyphSet()
    return {"glyphs": [glyph_figures(font, glyphs, name) for name in font.getGlyphOrder()]}


def all_stems(font):
    """Figures of the stem letters."""
    glyphs = font.getGlyphSet()
    return {
        "declared": declared(font),
        "stems": {letter: stems(font, glyphs, letter) for letter in STEMS},
        "crossbar": crossbar(font, glyphs),
        "rounds": {letter: round_sides(font, glyphs, letter) for letter in "Oo"},
    }


COMMANDS = {"glyphs": all_glyphs, "stems": all_stems}


def main(arguments):
    if len(arguments) < 2 or arguments[0] not in COMMANDS:
        sys.exit(__doc__)
    answer = []
    for path in arguments[1:]:
        file, _, face = path.partition("#")
        answer.append(COMMANDS[arguments[0]](open_font(file, int(face or 0))))
    json.dump(answer, sys.stdout)


if __name__ == "__main__":
    main(sys.argv[1:])
