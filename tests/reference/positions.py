"""Variable fonts at positions, three ways: as the lab made them still, as
fontTools' instancer does, and as HarfBuzz draws and sets them.

Reads a list from a file: [{"font": path, "still": path, "position": {tag: value}}].
Prints for each the greatest differences, in font units:

  points    of outlines, point by point, from fontTools' instancer
  drawn     of outlines, point by point, from what HarfBuzz draws (which does not round)
  advance   of advance widths, from the instancer
  set       of advances and offsets in a line of kerned text, from HarfBuzz
  glyphs    how many glyphs were compared
  formed    how many of them have another form at the position than the map of characters gives
  other     glyphs whose curves are not of the same kinds in the same order
"""

import json
import sys
from io import BytesIO

import uharfbuzz as hb
from fontTools import subset
from fontTools.pens.recordingPen import RecordingPen
from fontTools.ttLib import TTFont
from fontTools.varLib import instancer

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&$¢?!ÀÉÎÕÜÇáèîõüçßÆœ"
FORMS = ["rvrn", "rclt"]
LINE = "AVATAR To Ty We LTyp. AV, rotation fjord P. ffi Wörter"


def small(path):
    """The letters alone: the instancer takes seconds for a whole font."""
    options = subset.Options()
    options.drop_tables += ["GPOS", "GDEF", "STAT", "MATH"]
    # Letters' other forms are kept with them.
    options.layout_features = FORMS
    options.notdef_outline = True
    options.glyph_names = True
    options.hinting = False
    font = TTFont(path)
    cutter = subset.Subsetter(options)
    cutter.populate(text=LETTERS)
    cutter.subset(font)
    kept = BytesIO()
    font.save(kept)
    return kept.getvalue()


def outline(font, glyphs, name):
    """Every point, on the curve and off it, with composites resolved; or every step of a cubic path."""
    if "glyf" in font:
        points, ends, flags = font["glyf"][name].getCoordinates(font["glyf"])
        return [(("end", end), ()) for end in ends] + [(flag & 1, (point,)) for point, flag in zip(points, flags)]
    pen = RecordingPen()
    glyphs[name].draw(pen)
    return pen.value


def instanced(data, position):
    font = TTFont(BytesIO(data))
    keep = instancer.instantiateCFF2
    # Of a cubic path the instancer would round each step, which adds up along it,
    # and join lines that come to lie in one: the path itself is what is compared.
    exact = {"round": lambda v: v, "specialize": False}
    instancer.instantiateCFF2 = lambda *a, **k: keep(*a, **{**k, **exact})
    try:
        overlap = instancer.OverlapMode.KEEP_AND_DONT_SET_FLAGS
        return instancer.instantiateVariableFont(font, position, overlap=overlap)
    finally:
        instancer.instantiateCFF2 = keep


def apart(one, other):
    """The greatest distance of two paths' points; None if they are not of one make."""
    if [o for o, _ in one] != [o for o, _ in other]:
        return None
    most = 0.0
    for (_, a), (_, b) in zip(one, other):
        if len(a) != len(b):
            return None
        for p, q in zip(a, b):
            if (p is None) != (q is None):
                return None
            if p is not None:
                most = max(most, abs(p[0] - q[0]), abs(p[1] - q[1]))
    return most


def drawn(font, gid):
    value = []
    funcs = hb.DrawFuncs()
    funcs.set_move_to_func(lambda x, y, c: value.append(("m", ((x, y),))))
    funcs.set_line_to_func(lambda x, y, c: value.append(("l", ((x, y),))))
    funcs.set_quadratic_to_func(lambda a, b, x, y, c: value.append(("q", ((a, b), (x, y)))))
    funcs.set_cubic_to_func(lambda a, b, d, e, x, y, c: value.append(("c", ((a, b), (d, e), (x, y)))))
    funcs.set_close_path_func(lambda c: value.append(("z", ())))
    font.draw_glyph(gid, funcs, None)
    return value


def text(font):
    buffer = hb.Buffer()
    buffer.add_str(LINE)
    buffer.guess_segment_properties()
    # But for those by position, letters are set as the map gives them.
    off = {tag: False for tag in ("liga", "clig", "calt", "ccmp", "locl", "rlig")}
    hb.shape(font, buffer, off)
    places = [(p.x_advance, p.x_offset, p.y_offset) for p in buffer.glyph_positions]
    return [i.codepoint for i in buffer.glyph_infos], places


def form(font, letter):
    """The glyph that HarfBuzz sets for a letter by itself, with what its position asks for and nothing else."""
    buffer = hb.Buffer()
    buffer.add_str(letter)
    buffer.guess_segment_properties()
    off = {tag: False for tag in ("liga", "clig", "calt", "ccmp", "locl", "rlig", "kern")}
    hb.shape(font, buffer, off)
    return buffer.glyph_infos[0].codepoint if len(buffer.glyph_infos) == 1 else None


def one(entry, cache):
    font, position = entry["font"], entry["position"]
    if font not in cache:
        cache[font] = small(font)
    theirs = instanced(cache[font], position)
    ours = TTFont(entry["still"], lazy=True)
    maps = theirs.getBestCmap(), ours.getBestCmap()
    sets = theirs.getGlyphSet(), ours.getGlyphSet()
    result = {"points": 0.0, "drawn": 0.0, "advance": 0.0, "set": 0.0, "glyphs": 0, "formed": 0, "other": []}

    blob = hb.Blob.from_file_path(font)
    varied = hb.Font(hb.Face(blob))
    varied.set_variations(position)
    still = hb.Font(hb.Face(hb.Blob.from_file_path(entry["still"])))
    for letter in LETTERS:
        code = ord(letter)
        if code not in maps[0] or code not in maps[1]:
            continue
        result["glyphs"] += 1
        names = maps[1][code], maps[1][code]
        gid = ours.getGlyphID(names[1])
        if form(varied, letter) != gid:
            result["other"].append(f"{letter} (form)")
        result["formed"] += maps[0][code] != maps[1][code]
        far = apart(outline(theirs, sets[0], names[0]), outline(ours, sets[1], names[1]))
        if far is None:
            result["other"].append(letter)
        else:
            result["points"] = max(result["points"], far)
        wide = abs(theirs["hmtx"][names[0]][0] - ours["hmtx"][names[1]][0])
        result["advance"] = max(result["advance"], wide)
        far = apart(drawn(varied, gid), drawn(still, gid))
        if far is None:
            # A contour that is closed by a line of no length in one of the two.
            result["other"].append(f"{letter} (drawn)")
        else:
            result["drawn"] = max(result["drawn"], far)
    (ids, set_), (ids_, set__) = text(varied), text(still)
    if ids != ids_:
        result["other"].append("line")
    else:
        for p, q in zip(set_, set__):
            result["set"] = max([result["set"], *(abs(u - v) for u, v in zip(p, q))])
    return result


def main():
    with open(sys.argv[1]) as file:
        entries = json.load(file)
    cache = {}
    json.dump([one(entry, cache) for entry in entries], sys.stdout)


main()
