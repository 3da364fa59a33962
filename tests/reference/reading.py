"""Prints how HarfBuzz sets texts from right to left, as JSON.

    python reading.py FONT TEXTS

TEXTS is a JSON file of strings that go one way throughout. Of each glyph, from left
to right: its index, the character of the text that it begins with, its advance, and
how far it is moved right and up, in font units.
"""

import json
import sys

import uharfbuzz


def shape(font, text):
    """A text's glyphs."""
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.direction = "rtl"
    buffer.guess_segment_properties()
    buffer.cluster_level = uharfbuzz.BufferClusterLevel.MONOTONE_CHARACTERS
    uharfbuzz.shape(font, buffer, {"liga": False, "clig": False})
    return [
        [info.codepoint, info.cluster, place.x_advance, place.x_offset, place.y_offset]
        for info, place in zip(buffer.glyph_infos, buffer.glyph_positions)
    ]


def main():
    path, texts = sys.argv[1:]
    font = uharfbuzz.Font(uharfbuzz.Face(uharfbuzz.Blob.from_file_path(path)))
    with open(texts, encoding="utf-8") as file:
        print(json.dumps([shape(font, text) for text in json.load(file)]))


main()
