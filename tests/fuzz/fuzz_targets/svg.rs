//! Drawings as text: SVG, and single glyph files.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else {
        return;
    };
    if let Ok(sheet) = counterpoise_drawings::svg::read(text) {
        let _ = counterpoise::font::loose::split(&sheet.shapes);
    }
    let _ = counterpoise_drawings::ufo::read_glif(text);
});
