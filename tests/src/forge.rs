//! TrueType fonts made in code, sound or hostile as the glyphs handed in.

/// One table: its tag and its bytes.
pub type Table = ([u8; 4], Vec<u8>);

/// Units per em of forged fonts.
pub const UNITS_PER_EM: u16 = 1000;

/// Tables of a font whose glyph `i` has the data `glyphs[i]`, mapped from `A` on.
pub fn tables(glyphs: &[Vec<u8>]) -> Vec<Table> {
    let (mut glyf, mut loca) = (Vec::new(), vec![0u8; 4]);
    for glyph in glyphs {
        glyf.extend(glyph);
        glyf.resize(glyf.len().next_multiple_of(4), 0);
        loca.extend((glyf.len() as u32).to_be_bytes());
    }
    let count = glyphs.len() as u16;
    let mut hmtx = Vec::new();
    for _ in glyphs {
        hmtx.extend(words(&[600, 0]));
    }
    vec![
        (*b"cmap", cmap(count)),
        (*b"glyf", glyf),
        (*b"head", head()),
        (*b"hhea", hhea(count)),
        (*b"hmtx", hmtx),
        (*b"loca", loca),
        (*b"maxp", maxp(count)),
    ]
}

/// Tables of a CFF font of these charstrings and local subroutines.
pub fn cff_tables(glyphs: &[Vec<u8>], subroutines: &[Vec<u8>]) -> Vec<Table> {
    let mut all = tables(&vec![polygons(&[]); glyphs.len()]);
    all.retain(|(tag, _)| tag != b"glyf" && tag != b"loca");
    all.insert(0, (*b"CFF ", cff(glyphs, subroutines)));
    all
}

fn cff(glyphs: &[Vec<u8>], subroutines: &[Vec<u8>]) -> Vec<u8> {
    let number = |v: usize| {
        let mut bytes = vec![29];
        bytes.extend((v as u32).to_be_bytes());
        bytes
    };
    let charstrings = index(glyphs);
    // Subroutines begin right behind the private dictionary.
    let mut private = number(6);
    private.push(19);
    let top = |at: usize| {
        let mut dict = number(at);
        dict.push(17); // CharStrings
        dict.extend(number(private.len()));
        dict.extend(number(at + charstrings.len()));
        dict.push(18); // Private
        dict
    };
    let mut data = vec![1, 0, 4, 4];
    data.extend(index(&[b"Forged".to_vec()]));
    let rest = [index(&[]), index(&[])].concat(); // no strings, no global subroutines
    let at = data.len() + index(&[top(0)]).len() + rest.len();
    data.extend(index(&[top(at)]));
    data.extend(rest);
    data.extend(charstrings);
    data.extend(&private);
    data.extend(index(subroutines));
    data
}

/// A CFF INDEX with offsets four bytes long.
fn index(items: &[Vec<u8>]) -> Vec<u8> {
    let mut data = words(&[items.len() as i32]);
    if items.is_empty() {
        return data;
    }
    data.push(4);
    let mut offset = 1u32;
    for end in std::iter::once(0).chain(items.iter().map(Vec::len)) {
        offset += end as u32;
        data.extend(offset.to_be_bytes());
    }
    data.extend(items.concat());
    data
}

/// A font file of these tables.
pub fn font(tables: &[Table]) -> Vec<u8> {
    let mut file = vec![0, 1, 0, 0];
    file.extend(words(&[tables.len() as i32, 0, 0, 0]));
    let mut offset = 12 + 16 * tables.len();
    let mut body = Vec::new();
    for (tag, data) in tables {
        file.extend(tag);
        file.extend([0; 4]);
        file.extend((offset as u32).to_be_bytes());
        file.extend((data.len() as u32).to_be_bytes());
        body.extend(data);
        body.resize(body.len().next_multiple_of(4), 0);
        offset = 12 + 16 * tables.len() + body.len();
    }
    file.extend(body);
    file
}

/// Glyph data of contours of on-curve points.
pub fn polygons(contours: &[Vec<(i16, i16)>]) -> Vec<u8> {
    let all: Vec<(i16, i16)> = contours.iter().flatten().copied().collect();
    let range = |pick: fn(&(i16, i16)) -> i16| {
        let values = all.iter().map(pick);
        (values.clone().min().unwrap_or(0), values.max().unwrap_or(0))
    };
    let ((left, right), (foot, top)) = (range(|p| p.0), range(|p| p.1));
    let mut data = words(&[
        contours.len() as i32,
        left.into(),
        foot.into(),
        right.into(),
        top.into(),
    ]);
    let mut end = -1;
    for contour in contours {
        end += contour.len() as i32;
        data.extend(words(&[end]));
    }
    data.extend(words(&[0])); // no instructions
    data.extend(vec![1u8; all.len()]); // on the curve, both deltas two bytes long
    for pick in [|p: &(i16, i16)| p.0, |p: &(i16, i16)| p.1] {
        let mut last = 0i16;
        for point in &all {
            let delta = i32::from(pick(point)).wrapping_sub(i32::from(last));
            data.extend(words(&[delta]));
            last = pick(point);
        }
    }
    data
}

/// Glyph data of a composite that draws each of `parts` once, unmoved.
pub fn composite(parts: &[u16]) -> Vec<u8> {
    const WORDS_ARE_OFFSETS: i32 = 0x0003;
    const MORE: i32 = 0x0020;
    let mut data = words(&[-1, 0, 0, 600, 700]);
    for (i, &part) in parts.iter().enumerate() {
        let more = if i + 1 < parts.len() { MORE } else { 0 };
        data.extend(words(&[WORDS_ARE_OFFSETS | more, part.into(), 0, 0]));
    }
    data
}

/// Big-endian words; each value's low sixteen bits.
pub fn words(values: &[i32]) -> Vec<u8> {
    values
        .iter()
        .flat_map(|v| ((v & 0xFFFF) as u16).to_be_bytes())
        .collect()
}

fn head() -> Vec<u8> {
    let mut data = vec![0, 1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0x5F, 0x0F, 0x3C, 0xF5];
    data.extend(words(&[0, UNITS_PER_EM.into()]));
    data.extend([0; 16]); // dates
    data.extend(words(&[0, -200, 600, 800, 0, 8, 2, 1, 0])); // long loca
    data
}

fn hhea(count: u16) -> Vec<u8> {
    let mut data = vec![0, 1, 0, 0];
    data.extend(words(&[
        800,
        -200,
        0,
        600,
        0,
        0,
        600,
        1,
        0,
        0,
        0,
        0,
        0,
        0,
        0,
        count.into(),
    ]));
    data
}

fn maxp(count: u16) -> Vec<u8> {
    let mut data = vec![0, 1, 0, 0];
    data.extend(words(&[
        count.into(),
        100,
        10,
        100,
        10,
        2,
        0,
        0,
        0,
        0,
        0,
        0,
        10,
        5,
    ]));
    data
}

/// Format 4: the letters from A on lead to the glyphs from 1 on.
fn cmap(count: u16) -> Vec<u8> {
    let first = 0x41;
    let last = first + i32::from(count.clamp(2, 26)) - 2;
    let subtable = words(&[
        4,
        32,
        0,
        4,
        4,
        1,
        0,
        last,
        0xFFFF,
        0,
        first,
        0xFFFF,
        1 - first,
        1,
        0,
        0,
    ]);
    let mut data = words(&[0, 1, 3, 1, 0, 12]);
    data.extend(subtable);
    data
}
