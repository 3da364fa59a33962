"""Prints what references say of a font's kerning, as JSON.

    python kerning.py shape FONT PAIRS   HarfBuzz: advance of each pair, kerned and not
    python kerning.py tables FONT        fontTools: what each kerning subtable holds
    python kerning.py feature FONT FEATURES PAIRS   both: as shape, once the font's GPOS
                                         is one compiled from a feature file

PAIRS is a JSON file of strings of two characters.
"""

import io
import json
import sys

import uharfbuzz
from fontTools.feaLib.builder import addOpenTypeFeatures
from fontTools.ttLib import TTFont

# What would make of the two letters something else than the two letters.
OFF = {"liga": False, "clig": False, "calt": False, "rlig": False, "locl": False, "ccmp": False}


def advance(font, text, kern):
    """Sum of the advances of a text, font units."""
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.direction = "ltr"
    buffer.script = "Latn"
    buffer.language = "und"
    uharfbuzz.shape(font, buffer, {**OFF, "kern": kern})
    return sum(p.x_advance for p in buffer.glyph_positions)


def shape(path, pairs):
    """Kerned and unkerned advance of each pair."""
    return shape_blob(uharfbuzz.Blob.from_file_path(path), pairs)


def feature(path, features, pairs):
    """The same, kerned by a feature file alone."""
    font = TTFont(path)
    for tag in ("GPOS", "kern"):
        if tag in font:
            del font[tag]
    addOpenTypeFeatures(font, features)
    file = io.BytesIO()
    font.save(file)
    return shape_blob(uharfbuzz.Blob(file.getvalue()), pairs)


def shape_blob(blob, pairs):
    """Kerned and unkerned advance of each pair."""
    font = uharfbuzz.Font(uharfbuzz.Face(blob))
    with open(pairs, encoding="utf-8") as file:
        return [[advance(font, text, True), advance(font, text, False)] for text in json.load(file)]


def moved(value):
    """Whether a value moves anything on the level."""
    return value is not None and any(
        getattr(value, field, 0) for field in ("XPlacement", "XAdvance")
    )


def kern_lookups(table):
    """Indices of the lookups of Latin's kern feature."""
    scripts = {r.ScriptTag: r.Script for r in table.ScriptList.ScriptRecord}
    script = next((scripts[t] for t in ("latn", "DFLT", "dflt") if t in scripts), None)
    if script is None or script.DefaultLangSys is None:
        return None
    features = [table.FeatureList.FeatureRecord[i] for i in script.DefaultLangSys.FeatureIndex]
    kern = [f.Feature for f in features if f.FeatureTag == "kern"]
    return sorted({i for f in kern for i in f.LookupListIndex}) if kern else None


def one_subtable(subtable):
    """Whether it is of classes, how many entries move something, and the sum."""
    if subtable.Format == 1:
        values = [
            (r.Value1, r.Value2) for s in subtable.PairSet for r in s.PairValueRecord
        ]
    else:
        values = [
            (r.Value1, r.Value2) for row in subtable.Class1Record for r in row.Class2Record
        ]
    moving = [v for v in values if moved(v[0]) or moved(v[1])]
    total = sum(getattr(v[0], "XAdvance", 0) or 0 for v in moving)
    return {"ofClasses": subtable.Format == 2, "entries": len(moving), "sum": total}


def tables(path):
    """Each subtable of the table that a shaper uses."""
    font = TTFont(path, lazy=True)
    answer = []
    lookups = kern_lookups(font["GPOS"].table) if "GPOS" in font else None
    if lookups is not None:
        for index in lookups:
            lookup = font["GPOS"].table.LookupList.Lookup[index]
            for number, subtable in enumerate(lookup.SubTable):
                if lookup.LookupType == 9:
                    subtable = subtable.ExtSubTable
                if type(subtable).__name__ == "PairPos":
                    told = one_subtable(subtable)
                    answer.append({"lookup": index, "subtable": number, **told})
        return {"source": "GPOS", "subtables": answer}
    if "kern" in font:
        for index, subtable in enumerate(font["kern"].kernTables):
            values = [v for v in subtable.kernTable.values() if v]
            answer.append(
                {
                    "lookup": index,
                    "subtable": 0,
                    "ofClasses": False,
                    "entries": len(values),
                    "sum": sum(values),
                }
            )
        return {"source": "kern", "subtables": answer}
    return {"source": None, "subtables": []}


def main(arguments):
    if len(arguments) == 3 and arguments[0] == "shape":
        answer = shape(*arguments[1:])
    elif len(arguments) == 4 and arguments[0] == "feature":
        answer = feature(*arguments[1:])
    elif len(arguments) == 2 and arguments[0] == "tables":
        answer = tables(arguments[1])
    else:
        sys.exit(__doc__)
    json.dump(answer, sys.stdout)


if __name__ == "__main__":
    main(sys.argv[1:])
