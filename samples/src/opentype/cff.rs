//! The face's outlines as a CFF table: cubics as they were drawn.
//!
//! The layout is that of Adobe Technical Note 5176, the charstrings that of
//! 5177, with no subroutines and no hints: few letters need neither.

use crate::error::Error;
use crate::face::{Face, Letter};
use crate::measure;
use crate::names;
use crate::spline::{self, Curves, Knot};
use crate::style::{APEX, ASC, CAP, DESC, OVER, OVER_X, X};

/// Strings below this number are the standard's own.
const STANDARD_STRINGS: usize = 391;

/// The bytes of the table.
pub(super) fn table(face: &Face) -> Result<Vec<u8>, Error> {
    let charstrings = face
        .letters
        .iter()
        .map(charstring)
        .collect::<Result<Vec<_>, _>>()?;
    let mut strings = Strings::default();
    let version = strings.add(face.version);
    let notice = strings.add(names::COPYRIGHT);
    let full = strings.add(names::FULL);
    let family = strings.add(names::FAMILY);
    let charset = charset(face, &mut strings)?;
    let private = private(face)?;
    let charstrings = index(&charstrings)?;
    let name = index(&[names::POSTSCRIPT.as_bytes().to_vec()])?;
    let strings = index(&strings.0)?;
    let no_subroutines = index(&[])?;

    let mut bounds = [0_i32; 4];
    for letter in face.letters.iter().filter(|l| !l.path.is_empty()) {
        let ink = kurbo::Shape::bounding_box(&letter.path);
        bounds[0] = bounds[0].min(ink.x0.floor() as i32);
        bounds[1] = bounds[1].min(ink.y0.floor() as i32);
        bounds[2] = bounds[2].max(ink.x1.ceil() as i32);
        bounds[3] = bounds[3].max(ink.y1.ceil() as i32);
    }
    // Offsets are written at full length, so the dictionary's length does not
    // hang on their values: lay it out once with zeros, then with the truth.
    let top = |charset_at: usize, charstrings_at: usize, private_at: usize| {
        let mut dict = Dict::default();
        dict.numbers(&[version]).operator(0);
        dict.numbers(&[notice]).operator(1);
        dict.numbers(&[full]).operator(2);
        dict.numbers(&[family]).operator(3);
        dict.numbers(&bounds).operator(5);
        dict.offset(charset_at).operator(15);
        dict.offset(charstrings_at).operator(17);
        dict.offset(private.len()).offset(private_at).operator(18);
        dict.0
    };
    let head = [1, 0, 4, 4];
    let before = head.len()
        + name.len()
        + index(&[top(0, 0, 0)])?.len()
        + strings.len()
        + no_subroutines.len();
    let charstrings_at = before + charset.len();
    let private_at = charstrings_at + charstrings.len();
    let top = index(&[top(before, charstrings_at, private_at)])?;
    Ok([
        &head[..],
        &name,
        &top,
        &strings,
        &no_subroutines,
        &charset,
        &charstrings,
        &private,
    ]
    .concat())
}

#[derive(Default)]
struct Strings(Vec<Vec<u8>>);

impl Strings {
    /// The number of a string, which is added.
    fn add(&mut self, text: &str) -> i32 {
        self.0.push(text.as_bytes().to_vec());
        (STANDARD_STRINGS + self.0.len() - 1) as i32
    }
}

/// Glyph names in glyph order, without `.notdef`, in the plain format 0.
fn charset(face: &Face, strings: &mut Strings) -> Result<Vec<u8>, Error> {
    let mut bytes = vec![0];
    for letter in face.letters.iter().skip(1) {
        let number = strings.add(letter.name);
        let number = u16::try_from(number).map_err(|_| Error::OutOfRange("string number"))?;
        bytes.extend(number.to_be_bytes());
    }
    Ok(bytes)
}

/// Alignment zones and the dominant strokes, for whoever rasterises.
fn private(face: &Face) -> Result<Vec<u8>, Error> {
    let upright = |name, heights| measure::stem(measure::letter(face, name)?, heights, true);
    let lower = upright("l", (60.0, ASC - 60.0))?.round() as i32;
    let capital = upright("I", (60.0, CAP - 60.0))?.round() as i32;
    let bar = measure::upright_runs(&measure::outline(measure::letter(face, "H")?)?, 300.3);
    let bar = bar
        .first()
        .map(|run| (run.1 - run.0).round() as i32)
        .ok_or_else(|| Error::NoMeasure("the bar of H".into()))?;
    let unit = |v: f64| v.round() as i32;
    let mut dict = Dict::default();
    dict.deltas(&[
        unit(-APEX),
        0,
        unit(X),
        unit(X + OVER_X + 1.0),
        unit(CAP),
        unit(CAP + APEX),
        unit(ASC),
        unit(ASC + OVER_X),
    ])
    .operator(6);
    dict.deltas(&[unit(DESC - OVER), unit(DESC)]).operator(7);
    dict.numbers(&[bar]).operator(10);
    dict.numbers(&[lower]).operator(11);
    dict.deltas(&[lower, capital]).operator(12).operator(13);
    dict.numbers(&[0]).operator(20);
    dict.numbers(&[0]).operator(21);
    Ok(dict.0)
}

#[derive(Default)]
struct Dict(Vec<u8>);

impl Dict {
    fn operator(&mut self, code: u8) -> &mut Self {
        self.0.push(code);
        self
    }

    fn numbers(&mut self, values: &[i32]) -> &mut Self {
        for &value in values {
            self.0.extend(number(value));
        }
        self
    }

    /// Values as differences from the one before.
    fn deltas(&mut self, values: &[i32]) -> &mut Self {
        let mut last = 0;
        for &value in values {
            self.0.extend(number(value - last));
            last = value;
        }
        self
    }

    /// A number in five bytes whatever its size.
    fn offset(&mut self, value: usize) -> &mut Self {
        self.0.push(29);
        self.0.extend((value as u32).to_be_bytes());
        self
    }
}

/// A whole number in the shortest form that dictionaries and charstrings share.
fn number(value: i32) -> Vec<u8> {
    match value {
        -107..=107 => vec![(value + 139) as u8],
        108..=1131 => {
            let v = value - 108;
            vec![(v / 256 + 247) as u8, (v % 256) as u8]
        }
        -1131..=-108 => {
            let v = -value - 108;
            vec![(v / 256 + 251) as u8, (v % 256) as u8]
        }
        _ => {
            let mut bytes = vec![28];
            bytes.extend((value as i16).to_be_bytes());
            bytes
        }
    }
}

/// An INDEX: a count, offsets, and the items one after the other.
fn index(items: &[Vec<u8>]) -> Result<Vec<u8>, Error> {
    let count = u16::try_from(items.len()).map_err(|_| Error::OutOfRange("index count"))?;
    let mut bytes = count.to_be_bytes().to_vec();
    if items.is_empty() {
        return Ok(bytes);
    }
    bytes.push(4);
    let mut at = 1_u32;
    bytes.extend(at.to_be_bytes());
    for item in items {
        at += u32::try_from(item.len()).map_err(|_| Error::OutOfRange("index length"))?;
        bytes.extend(at.to_be_bytes());
    }
    bytes.extend(items.concat());
    Ok(bytes)
}

/// A letter's charstring: its width, then lines and curves.
fn charstring(letter: &Letter) -> Result<Vec<u8>, Error> {
    let mut code = number(letter.advance.round() as i32);
    let mut pen = (0_i32, 0_i32);
    for contour in spline::knots(&letter.path, Curves::Cubic, letter.name)? {
        // CFF turns the other way than TrueType.
        let mut turned = contour;
        if let Some(rest) = turned.get_mut(1..) {
            rest.reverse();
        }
        let Some(first) = turned.first().copied() else {
            continue;
        };
        step(&mut code, &mut pen, &[first]);
        code.push(21);
        let mut handles = Vec::new();
        for &knot in turned.iter().skip(1).chain([&first]) {
            handles.push(knot);
            if knot.on {
                let closing_line = knot == first && handles.len() == 1;
                if !closing_line {
                    step(&mut code, &mut pen, &handles);
                    code.push(if handles.len() == 1 { 5 } else { 8 });
                }
                handles.clear();
            }
        }
    }
    code.push(14);
    Ok(code)
}

/// Writes points as steps from the pen, which moves along.
fn step(code: &mut Vec<u8>, pen: &mut (i32, i32), knots: &[Knot]) {
    for knot in knots {
        let (x, y) = (i32::from(knot.x), i32::from(knot.y));
        code.extend(number(x - pen.0));
        code.extend(number(y - pen.1));
        *pen = (x, y);
    }
}
