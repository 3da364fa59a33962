"""What a font declares of itself: CFF's private values, heights, the italic angle."""

PRIVATE = ("StdVW", "StdHW", "StemSnapV", "StemSnapH", "BlueValues", "OtherBlues")


def private_of(font, glyph):
    """The private values that hold for `glyph`; None in a font that is not CFF.

    A CID font has one private dictionary a group of glyphs: the Latin's is not
    the ideographs'.
    """
    if "CFF " not in font:
        return None
    top = font["CFF "].cff.topDictIndex[0]
    if hasattr(top, "FDArray"):
        index = top.FDSelect[font.getGlyphID(glyph)] if hasattr(top, "FDSelect") else 0
        private = top.FDArray[index].Private
    else:
        private = top.Private
    return {key: getattr(private, key, None) for key in PRIVATE}


def declared(font):
    """Everything declared that the checks compare with."""
    cmap = font.getBestCmap() or {}
    os2 = font["OS/2"] if "OS/2" in font else None
    return {
        "unitsPerEm": font["head"].unitsPerEm,
        "glyphCount": font["maxp"].numGlyphs,
        "xHeight": getattr(os2, "sxHeight", None),
        "capHeight": getattr(os2, "sCapHeight", None),
        "italicAngle": font["post"].italicAngle if "post" in font else None,
        "private": private_of(font, cmap[ord("H")] if ord("H") in cmap else ".notdef"),
    }
