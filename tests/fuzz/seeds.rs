//! What the fuzzers start from, made of our own sample: `cargo run --bin seeds`
//! writes a folder of files for each target into `corpus/`.

use counterpoise::outline::Outline;
use counterpoise_samples::{Error, clean, planted, postscript, redraw_svg, sketch_png, truetype};
use std::io::Write;
use std::path::Path;

fn main() -> Result<(), Error> {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("corpus");
    let put = |target: &str, name: &str, bytes: &[u8]| -> std::io::Result<()> {
        let folder = corpus.join(target);
        std::fs::create_dir_all(&folder)?;
        std::fs::write(folder.join(name), bytes)
    };
    let (clean, (planted, _)) = (clean(), planted()?);
    for (name, bytes) in [
        ("clean.ttf", truetype(&clean)?),
        ("clean.otf", postscript(&clean)?),
        ("planted.ttf", truetype(&planted)?),
        ("planted.otf", postscript(&planted)?),
    ] {
        put("font", name, &bytes)?;
        put("formats", name, &bytes)?;
        put("formats", &format!("{name}.woff"), &woff(&bytes))?;
        put("formats", &format!("{name}.ttc"), &collection(&bytes))?;
        put("formats", &format!("{name}.var"), &varying(&bytes))?;
    }
    put("svg", "redraw.svg", redraw_svg()?.as_bytes())?;
    put("svg", "bar.svg", br##"<svg viewBox="0 0 9 9"><g id="a" transform="scale(2)"><path d="M1 1h3v7z" stroke="#000"/><rect width="3" height="2" rx="1"/><circle r="2"/></g><use href="#a"/></svg>"##)?;
    put("svg", "a.glif", GLIF.as_bytes())?;
    put("image", "sketch.png", &sketch_png()?)?;
    put("archive", "font.zip", &ufo()?)?;
    put("measures", "R", &path(&redraw()))?;
    println!("The seeds are in {}.", corpus.display());
    Ok(())
}

const GLIF: &str = r#"<?xml version="1.0"?><glyph name="l" format="2"><advance width="300"/><unicode hex="006C"/><outline><contour><point x="80" y="0" type="line"/><point x="80" y="700" type="line"/><point x="170" y="700" type="line"/><point x="170" y="0" type="curve"/><point x="150" y="0"/><point x="120" y="-10"/></contour><component base="a" xOffset="3"/></outline></glyph>"#;

/// A font packed as WOFF with its tables as they are (W3C, WOFF 1.0).
fn woff(font: &[u8]) -> Vec<u8> {
    let count = usize::from(u16::from_be_bytes([font[4], font[5]]));
    let mut file = b"wOFF".to_vec();
    file.extend(&font[..4]);
    let size = font.len() - 12 - 16 * count + 44 + 20 * count;
    file.extend((size as u32).to_be_bytes());
    file.extend([font[4], font[5], 0, 0]);
    file.extend((font.len() as u32).to_be_bytes());
    file.extend([0; 24]);
    let moved = 44 + 20 * count - (12 + 16 * count);
    for record in font[12..12 + 16 * count].chunks(16) {
        let number = |at: usize| u32::from_be_bytes(record[at..at + 4].try_into().expect("four"));
        file.extend(&record[..4]);
        file.extend((number(8) + moved as u32).to_be_bytes());
        file.extend(&record[12..16]);
        file.extend(&record[12..16]);
        file.extend(&record[4..8]);
    }
    file.extend(&font[12 + 16 * count..]);
    file
}

/// A collection of the same face twice.
fn collection(font: &[u8]) -> Vec<u8> {
    let head = 20_u32;
    let mut file = b"ttcf\0\x01\0\0\0\0\0\x02".to_vec();
    file.extend([head.to_be_bytes(), head.to_be_bytes()].concat());
    let mut face = font.to_vec();
    let count = usize::from(u16::from_be_bytes([font[4], font[5]]));
    for i in 0..count {
        let at = 12 + 16 * i + 8;
        let offset = u32::from_be_bytes(face[at..at + 4].try_into().expect("four")) + head;
        face[at..at + 4].copy_from_slice(&offset.to_be_bytes());
    }
    file.extend(face);
    file
}

/// A font with an axis of weight, along which its first glyphs move.
fn varying(font: &[u8]) -> Vec<u8> {
    let count = u16::from_be_bytes([font[4], font[5]]);
    let glyphs = {
        let at = (0..usize::from(count)).map(|i| 12 + 16 * i);
        let maxp = at.clone().find(|&r| &font[r..r + 4] == b"maxp").expect("maxp");
        let place = u32::from_be_bytes(font[maxp + 8..maxp + 12].try_into().expect("four")) as usize;
        u16::from_be_bytes([font[place + 4], font[place + 5]])
    };
    let fixed = |v: i32| (v << 16).to_be_bytes();
    let mut fvar = [0, 1, 0, 0, 0, 16, 0, 2, 0, 1, 0, 20, 0, 0, 0, 8].to_vec();
    fvar.extend(b"wght");
    fvar.extend([fixed(100), fixed(400), fixed(900)].concat());
    fvar.extend([0, 0, 1, 0]);
    // One variation each: all points, of which every delta is nought but the runs' first.
    let one = [0, 1, 0, 10, 0, 5, 0x80, 0, 0x40, 0, 0x03, 10, 20, 30, 40, 0x00];
    let mut gvar = [0, 1, 0, 0, 0, 1, 0, 0].to_vec();
    let offsets = 20 + 4 * (u32::from(glyphs) + 1);
    gvar.extend(offsets.to_be_bytes());
    gvar.extend(glyphs.to_be_bytes());
    gvar.extend([0, 1]);
    gvar.extend(offsets.to_be_bytes());
    for i in 0..=u32::from(glyphs) {
        gvar.extend((i.min(8) * one.len() as u32).to_be_bytes());
    }
    for _ in 0..8 {
        gvar.extend(one);
    }
    let mut file = font[..4].to_vec();
    file.extend((count + 2).to_be_bytes());
    file.extend(&font[6..12]);
    let shift = 32_u32;
    for record in font[12..12 + 16 * usize::from(count)].chunks(16) {
        let offset = u32::from_be_bytes(record[8..12].try_into().expect("four")) + shift;
        file.extend(&record[..8]);
        file.extend(offset.to_be_bytes());
        file.extend(&record[12..]);
    }
    let mut at = font.len() as u32 + shift;
    for (tag, table) in [(b"fvar", &fvar), (b"gvar", &gvar)] {
        file.extend(tag);
        file.extend([0; 4]);
        file.extend(at.to_be_bytes());
        file.extend((table.len() as u32).to_be_bytes());
        at += table.len() as u32;
    }
    file.extend(&font[12 + 16 * usize::from(count)..]);
    file.extend(fvar);
    file.extend(gvar);
    file
}

/// A zipped folder of one glyph, its files as they are (PKWARE, APPNOTE).
fn ufo() -> std::io::Result<Vec<u8>> {
    let contents = r#"<?xml version="1.0"?><plist version="1.0"><dict><key>l</key><string>l.glif</string></dict></plist>"#;
    let meta = r#"<?xml version="1.0"?><plist version="1.0"><dict><key>formatVersion</key><integer>3</integer></dict></plist>"#;
    let info = r#"<?xml version="1.0"?><plist version="1.0"><dict><key>unitsPerEm</key><integer>1000</integer></dict></plist>"#;
    let files = [
        ("F.ufo/metainfo.plist", meta),
        ("F.ufo/fontinfo.plist", info),
        ("F.ufo/glyphs/contents.plist", contents),
        ("F.ufo/glyphs/l.glif", GLIF),
    ];
    let (mut zip, mut central) = (Vec::new(), Vec::new());
    for (name, text) in files {
        let (sum, length) = (crc(text.as_bytes()).to_le_bytes(), (text.len() as u32).to_le_bytes());
        let mut head = [20, 0, 0, 0, 0, 0, 0, 0, 0, 0].to_vec();
        head.extend([sum, length, length].concat());
        head.extend((name.len() as u16).to_le_bytes());
        head.extend([0, 0]);
        let at = (zip.len() as u32).to_le_bytes();
        zip.write_all(b"PK\x03\x04")?;
        zip.write_all(&head)?;
        zip.write_all(name.as_bytes())?;
        zip.write_all(text.as_bytes())?;
        central.write_all(b"PK\x01\x02\x14\0")?;
        central.write_all(&head)?;
        central.write_all(&[0; 10])?;
        central.write_all(&at)?;
        central.write_all(name.as_bytes())?;
    }
    let (start, size) = (zip.len() as u32, central.len() as u32);
    let count = (files.len() as u16).to_le_bytes();
    zip.extend(central);
    zip.write_all(b"PK\x05\x06\0\0\0\0")?;
    zip.write_all(&[count, count].concat())?;
    zip.write_all(&[size.to_le_bytes(), start.to_le_bytes()].concat())?;
    zip.write_all(&[0, 0])?;
    Ok(zip)
}

/// The checksum of zip files (ISO 3309).
fn crc(data: &[u8]) -> u32 {
    let step = |sum: u32, _| (sum >> 1) ^ (0xEDB8_8320 & (sum & 1).wrapping_neg());
    !data.iter().fold(!0, |sum, &b| (0..8).fold(sum ^ u32::from(b), step))
}

fn redraw() -> Outline {
    let text = redraw_svg().expect("our own drawing");
    let sheet = counterpoise_drawings::svg::read(&text).expect("our own drawing reads");
    sheet.shapes.into_iter().next().unwrap_or_default()
}

/// An outline as the target of measures reads it.
fn path(outline: &Outline) -> Vec<u8> {
    let mut bytes = Vec::new();
    let place = |p: kurbo::Point, bytes: &mut Vec<u8>| {
        for v in [p.x, p.y] {
            bytes.push(1);
            bytes.extend((v as i16).to_be_bytes());
        }
    };
    for segment in outline.segments() {
        let (kind, points) = match segment.path_seg() {
            kurbo::PathSeg::Line(l) => (0, vec![l.p1]),
            kurbo::PathSeg::Quad(q) => (3, vec![q.p1, q.p2]),
            kurbo::PathSeg::Cubic(c) => (5, vec![c.p1, c.p2, c.p3]),
        };
        if bytes.is_empty() {
            place(kurbo::ParamCurve::start(&segment.path_seg()), &mut bytes);
        }
        bytes.push(kind);
        points.into_iter().for_each(|p| place(p, &mut bytes));
    }
    bytes
}
