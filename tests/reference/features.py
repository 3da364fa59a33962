"""What fontTools reads of a font's substitutions, as JSON.

features.py FONT prints, for each feature tag of GSUB, how many ligatures, other
forms and rules in context the lookups offer that its records name: each lookup
once a tag, subtables of extension lookups as what they extend.
"""

import json
import sys

from fontTools.ttLib import TTFont

CONTEXTUAL = {5, 6, 8}


def count(subtable):
    if subtable.LookupType == 7:
        subtable = subtable.ExtSubTable
    kind = subtable.LookupType
    if kind in (1, 2):
        return [0, len(subtable.mapping), 0]
    if kind == 3:
        return [0, sum(len(forms) for forms in subtable.alternates.values()), 0]
    if kind == 4:
        return [sum(len(set_) for set_ in subtable.ligatures.values()), 0, 0]
    return [0, 0, 1 if kind in CONTEXTUAL else 0]


def main(path):
    font = TTFont(path)
    all_ = {}
    if "GSUB" in font and font["GSUB"].table.FeatureList:
        table = font["GSUB"].table
        lookups = {}
        for record in table.FeatureList.FeatureRecord:
            lookups.setdefault(record.FeatureTag, set()).update(record.Feature.LookupListIndex)
        for tag, indices in lookups.items():
            counts = [0, 0, 0]
            for index in indices:
                for subtable in table.LookupList.Lookup[index].SubTable:
                    counts = [a + b for a, b in zip(counts, count(subtable))]
            all_[tag] = counts
    print(json.dumps(all_))


main(sys.argv[1])
