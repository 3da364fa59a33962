//! Font files read as the page reads them: opened, every glyph of some measured,
//! judged, its spacing and its kerning read.
#![no_main]

use counterpoise::font::{Font, GlyphId};
use counterpoise::judge::{Alphabet, Meant, Table};
use counterpoise::measure::{self, Context, QUANTITIES, Subject};
use counterpoise::report::{ContentsReport, FontReport, JudgementReport, RulesReport, SpacingSurvey};
use libfuzzer_sys::fuzz_target;

/// Glyphs that are measured: a fuzzer learns little from the hundredth.
const GLYPHS: u16 = 24;

fuzz_target!(|data: &[u8]| {
    let Ok(font) = Font::open(data.to_vec()) else {
        return;
    };
    let context = Context::of(&font);
    let reader = font.reader();
    for id in 0..font.glyph_count().min(GLYPHS) {
        let Ok(letter) = measure::letter(&reader, GlyphId(id), &context) else {
            continue;
        };
        let subject = Subject {
            letter: &letter,
            character: Some('H'),
            context: &context,
        };
        for quantity in QUANTITIES {
            if let Some(figure) = (quantity.of)(&subject) {
                assert!(figure.is_finite(), "{figure}");
            }
        }
    }
    let alphabet = Alphabet::of(&font);
    FontReport::new(&font, &context, "fuzz");
    ContentsReport::of(&font);
    let table = Table::shipped();
    RulesReport::of(&alphabet, table.as_ref());
    JudgementReport::of(&alphabet, table.as_ref(), &Meant::nothing());
    let mut survey = SpacingSurvey::new(&font, &context, "HOno".chars());
    while survey.step(&font, 8) {}
    survey.report();
    survey.suggestion(&font, 4.0, &[('n', 'o')]);
});
