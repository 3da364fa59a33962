"""Which glyphs differ between two releases of a font, by what their pens draw.

changed.py OLD NEW prints JSON: the later font's glyph names whose drawing
("shape") or advance width ("advance") differs from that of the glyph which the
same character leads to, or, of glyphs that no character of both leads to, from
that of the same name; and the names that only one of them has.
"""

import json
import sys

from fontTools.pens.recordingPen import RecordingPen
from fontTools.ttLib import TTFont


def drawn(font):
    glyphs = font.getGlyphSet()
    all_ = {}
    for name in glyphs.keys():
        pen = RecordingPen()
        glyphs[name].draw(pen)
        all_[name] = (pen.value, glyphs[name].width)
    return all_


def main(old_file, new_file):
    old, new = TTFont(old_file), TTFont(new_file)
    before, after = drawn(old), drawn(new)
    old_map, new_map = old.getBestCmap(), new.getBestCmap()
    pairs, taken = {}, set()
    for code in sorted(set(old_map) & set(new_map)):
        if new_map[code] not in pairs and old_map[code] not in taken:
            pairs[new_map[code]] = old_map[code]
            taken.add(old_map[code])
    for name in sorted(set(before) & set(after)):
        if name not in pairs and name not in taken:
            pairs[name] = name
            taken.add(name)
    shape = sorted(n for n, o in pairs.items() if before[o][0] != after[n][0])
    advance = sorted(n for n, o in pairs.items() if before[o][1] != after[n][1])
    print(
        json.dumps(
            {
                "shape": shape,
                "advance": advance,
                "added": sorted(set(after) - set(pairs)),
                "gone": sorted(set(before) - taken),
            }
        )
    )


main(*sys.argv[1:])
