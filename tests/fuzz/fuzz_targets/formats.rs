//! Unusual font files made plain: whatever comes out opens or is refused.
#![no_main]

use counterpoise::font::{Font, GlyphId};
use counterpoise_formats::FontFile;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let Ok(file) = FontFile::open(data.to_vec()) else {
        return;
    };
    let faces = file.report().faces.len();
    for face in 0..faces.min(3) {
        let Ok(report) = file.face(face) else {
            continue;
        };
        let at = |share: f64| -> Vec<f64> {
            let axes = report.axes.iter();
            axes.map(|a| a.min + share * (a.max - a.min)).collect()
        };
        let mut plain = vec![file.plain(face, None, None)];
        if !report.axes.is_empty() {
            plain.extend([0.0, 0.3, 1.0].map(|s| file.plain(face, Some(&at(s)), Some("Fuzz"))));
        }
        for font in plain.into_iter().flatten().filter_map(|p| Font::open(p).ok()) {
            let reader = font.reader();
            for id in 0..font.glyph_count().min(16) {
                let _ = reader.outline(GlyphId(id));
                assert!(reader.advance(GlyphId(id)).is_finite());
            }
        }
    }
});
