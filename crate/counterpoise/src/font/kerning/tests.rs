//! Kerning tables made in code, sound and otherwise.

use super::classes::ClassMap;
use super::*;

fn words(values: &[i32]) -> Vec<u8> {
    values
        .iter()
        .flat_map(|v| ((v & 0xFFFF) as u16).to_be_bytes())
        .collect()
}

/// A GPOS table of lookups, all of the kern feature of one script.
fn gpos(script: &[u8; 4], feature: &[u8; 4], lookups: &[Vec<u8>]) -> Vec<u8> {
    let count = lookups.len() as i32;
    let mut scripts = words(&[1]);
    scripts.extend(script);
    scripts.extend(words(&[8, 4, 0, 0, 0xFFFF, 1, 0]));
    let mut features = words(&[1]);
    features.extend(feature);
    features.extend(words(&[8, 0, count]));
    features.extend(words(&(0..count).collect::<Vec<_>>()));
    let mut list = words(&[count]);
    let mut offset = 2 + 2 * count;
    for lookup in lookups {
        list.extend(words(&[offset]));
        offset += lookup.len() as i32;
    }
    list.extend(lookups.concat());
    let at = |n: usize| 10 + n as i32;
    let mut table = words(&[
        1,
        0,
        at(0),
        at(scripts.len()),
        at(scripts.len() + features.len()),
    ]);
    for part in [scripts, features, list] {
        table.extend(part);
    }
    table
}

fn lookup(kind: i32, flags: i32, subtables: &[Vec<u8>]) -> Vec<u8> {
    let count = subtables.len() as i32;
    let mut data = words(&[kind, flags, count]);
    let mut offset = 6 + 2 * count;
    for s in subtables {
        data.extend(words(&[offset]));
        offset += s.len() as i32;
    }
    data.extend(subtables.concat());
    data
}

/// Format 1 of one first glyph and its seconds, advances alone.
fn singles(first: i32, seconds: &[(i32, i32)]) -> Vec<u8> {
    let mut data = words(&[1, 12, 4, 0, 1, 18, 1, 1, first]);
    data.extend(words(&[seconds.len() as i32]));
    for (glyph, value) in seconds {
        data.extend(words(&[*glyph, *value]));
    }
    data
}

/// Format 2: glyphs 1 and 2 first, 2 of class 1; second 5 of class 1.
fn class_table(values: [i32; 4]) -> Vec<u8> {
    let mut data = words(&[2, 24, 4, 0, 32, 40, 2, 2]);
    data.extend(words(&values));
    data.extend(words(&[1, 2, 1, 2]));
    data.extend(words(&[1, 2, 1, 1]));
    data.extend(words(&[1, 5, 1, 1]));
    data
}

fn extension(subtable: &[u8]) -> Vec<u8> {
    let mut data = words(&[1, 2, 0, 8]);
    data.extend(subtable);
    data
}

fn read(table: &[u8]) -> (Kerning, bool) {
    let (mut budget, mut notes) = (MOST_ENTRIES, Vec::new());
    let none = ClassMap::default();
    let lookups = gpos::read(table, LATIN, None, &none, &mut budget, &mut notes);
    let found = lookups.is_some();
    let kerning = Kerning {
        source: found.then_some(KerningSource::Gpos),
        lookups: lookups.unwrap_or_default(),
        notes,
    };
    (kerning, found)
}

fn apart(k: &Kerning, first: u16, second: u16) -> i32 {
    k.value(GlyphId(first), GlyphId(second)).apart()
}

#[test]
fn an_exception_stands_before_its_class_and_lookups_add() {
    let first = lookup(
        2,
        0,
        &[
            singles(2, &[(5, 0), (7, -30)]),
            class_table([0, -10, -1, -20]),
        ],
    );
    let second = lookup(9, 0, &[extension(&class_table([0, -3, 0, -4]))]);
    let (k, _) = read(&gpos(b"latn", b"kern", &[first, second]));
    // The single pair moves nothing, and still keeps the class from it.
    assert_eq!(apart(&k, 2, 5), -4);
    assert_eq!(apart(&k, 1, 5), -13);
    assert_eq!(apart(&k, 2, 7), -30);
    // Class 0 of the second glyphs is all that have no other.
    assert_eq!(apart(&k, 2, 99), -1);
    assert_eq!(apart(&k, 3, 5), 0);
    let sources = k.sources(GlyphId(1), GlyphId(5));
    assert_eq!(sources.len(), 2);
    let zero_and_one = PairOrigin::Classes {
        first: 0,
        second: 1,
    };
    assert_eq!((sources[0].origin, sources[0].subtable), (zero_and_one, 1));
    let members = k.members(&sources[0]);
    assert_eq!(members, (vec![GlyphId(1)], vec![GlyphId(5)]));
    let entries: Vec<usize> = k.tallies().iter().map(|t| t.entries).collect();
    assert_eq!(entries, [1, 3, 2]);
    assert!(k.notes().is_empty());
}

#[test]
fn a_script_that_the_font_lacks_is_read_as_its_default() {
    let pair = || lookup(2, 0, &[singles(1, &[(2, -9)])]);
    assert_eq!(apart(&read(&gpos(b"DFLT", b"kern", &[pair()])).0, 1, 2), -9);
    assert!(!read(&gpos(b"cyrl", b"kern", &[pair()])).1);
    assert!(!read(&gpos(b"latn", b"cpsp", &[pair()])).1);
}

#[test]
fn glyphs_that_the_lookup_passes_over_are_not_moved() {
    let (mut budget, mut notes) = (MOST_ENTRIES, Vec::new());
    let marks = ClassMap::read(&words(&[1, 2, 1, 3]), &mut budget).unwrap();
    let pass_marks = lookup(2, 8, &[singles(1, &[(2, -9), (3, -8)])]);
    let table = gpos(b"latn", b"kern", &[pass_marks]);
    let lookups = gpos::read(&table, LATIN, None, &marks, &mut budget, &mut notes).unwrap();
    let k = Kerning {
        lookups,
        ..Kerning::default()
    };
    assert_eq!((apart(&k, 1, 2), apart(&k, 1, 3)), (0, -8));
}

#[test]
fn a_value_may_move_the_glyphs_themselves() {
    // Placement and advance of both.
    let mut data = words(&[1, 12, 5, 5, 1, 18, 1, 1, 1]);
    data.extend(words(&[1, 2, 3, -20, 7, 11]));
    let (k, _) = read(&gpos(b"latn", b"kern", &[lookup(2, 0, &[data])]));
    let v = k.value(GlyphId(1), GlyphId(2));
    assert_eq!((v.apart(), v.advance()), (-20 - 3 + 7, -20 + 11));
}

#[test]
fn what_cannot_be_read_is_told_and_costs_nothing_else() {
    let sound = singles(1, &[(2, -9)]);
    let unknown = words(&[7, 0, 0]);
    let mut cut = singles(4, &[(2, -9)]);
    cut[13] = 0xFF; // coverage of a format that is none
    let lookups = [
        lookup(2, 0, &[unknown, sound]),
        lookup(8, 0, &[words(&[1])]),
        lookup(1, 0, &[words(&[1])]),
        lookup(2, 0, &[cut]),
    ];
    let (k, _) = read(&gpos(b"latn", b"kern", &lookups));
    assert_eq!(apart(&k, 1, 2), -9);
    assert_eq!(
        k.notes(),
        [
            KerningNote::BrokenSubtable {
                lookup: 0,
                subtable: 0
            },
            KerningNote::Contextual(1),
            KerningNote::OtherType { lookup: 2, kind: 1 },
            KerningNote::BrokenSubtable {
                lookup: 3,
                subtable: 0
            },
        ]
    );
    assert!(k.notes().iter().all(|n| n.to_string().ends_with('.')));
    assert_eq!(read(b"GPOS").0.notes(), [KerningNote::BrokenGpos]);
}

#[test]
fn tables_that_claim_more_than_they_hold_end_within_the_budget() {
    // 65,535 by 65,535 classes without a byte of values, from every subtable.
    let mut empty = words(&[2, 16, 0, 0, 20, 20, -1, -1]);
    empty.extend(words(&[1, 0, 1, 0, 0]));
    let (k, _) = read(&gpos(b"latn", b"kern", &[lookup(2, 0, &[empty])]));
    assert_eq!(apart(&k, 1, 2), 0);
    // Every subtable of every lookup is the same long coverage.
    let mut wide = words(&[2, 16, 4, 0, 0, 0, 1, 1]);
    wide.extend(words(&[2, 1, 0, -1, 0]));
    let mut many = words(&[2, 0, 400]);
    many.extend(words(&[806; 400]));
    many.extend(wide);
    let (k, _) = read(&gpos(b"latn", b"kern", &vec![many; 20]));
    assert!(k.notes().contains(&KerningNote::TooMuch));
}

#[test]
fn no_bytes_make_the_reader_fail() {
    let sound = gpos(
        b"latn",
        b"kern",
        &[
            lookup(
                2,
                0,
                &[singles(1, &[(2, -9), (3, 4)]), class_table([1, 2, 3, 4])],
            ),
            lookup(9, 8, &[extension(&class_table([0, -3, 0, -4]))]),
        ],
    );
    let mut state = 1_u32;
    let mut next = || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (state >> 8) as usize
    };
    for _ in 0..20_000 {
        let mut bytes = sound.clone();
        for _ in 0..1 + next() % 4 {
            let at = next() % bytes.len();
            bytes[at] = [0, 0xFF, 0x7F, next() as u8][next() % 4];
        }
        bytes.truncate(bytes.len() - next() % 3 * next() % bytes.len());
        let (k, _) = read(&bytes);
        k.value(GlyphId(1), GlyphId(2));
        for source in k.sources(GlyphId(2), GlyphId(5)) {
            k.members(&source);
        }
        k.tallies();
        let (mut budget, mut notes) = (1000, Vec::new());
        legacy::read(&bytes, &mut budget, &mut notes);
    }
}

#[test]
fn the_kern_table_adds_its_level_subtables() {
    let subtable = |coverage: i32, pairs: &[(i32, i32, i32)]| {
        let count = pairs.len() as i32;
        let mut data = words(&[0, 14 + 6 * count, coverage, count, 0, 0, 0]);
        for p in pairs {
            data.extend(words(&[p.0, p.1, p.2]));
        }
        data
    };
    let mut table = words(&[0, 3]);
    table.extend(subtable(1, &[(1, 2, -30), (1, 3, 5), (4, 2, 7)]));
    table.extend(subtable(0, &[(1, 2, 99)])); // upright
    table.extend(subtable(1, &[(1, 2, -4)]));
    let (mut budget, mut notes) = (MOST_ENTRIES, Vec::new());
    let k = Kerning {
        lookups: legacy::read(&table, &mut budget, &mut notes),
        ..Kerning::default()
    };
    assert_eq!(
        (apart(&k, 1, 2), apart(&k, 1, 3), apart(&k, 4, 2)),
        (-34, 5, 7)
    );
    assert_eq!(notes, [KerningNote::OtherKernSubtable(1)]);
    legacy::read(&table[..20], &mut budget, &mut notes);
    assert_eq!(notes.last(), Some(&KerningNote::BrokenKernTable));
}
