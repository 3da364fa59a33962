//! An opened font as the stage's supply of letters.

use crate::drawings::LetterDrawing;
use crate::fingerprint;
use crate::stage::command::Within;
use crate::stage::sorts::Supply;
use counterpoise::font::{Font, FontError, GlyphId};
use counterpoise::judge::{Alphabet, Drawn, Meant};
use counterpoise::measure::Context;
use counterpoise::measure::darkness::Band;
use counterpoise::measure::drawing::{DrawingContext, Redrawn, Tolerance, redrawn};
use counterpoise::outline::Outline;
use counterpoise::report::{
    ContentsReport, FontReport, Guide, Item, JudgementReport, LetterReport, MeantSo, RulesReport,
};
use counterpoise::spacing::Grid;
use std::cell::{OnceCell, RefCell};
use std::collections::HashMap;
use std::rc::Rc;

/// What the stage shows of a font before anything has been typed: a straight, a
/// round and a diagonal letter of each case, and letters that mix them.
const OPENING: &str = "HOVRnovmg";

/// Letters shown of a font that has none of those.
const OPENING_LENGTH: usize = 10;

/// A font, what its letters are read against, and what it says of itself.
#[derive(Debug)]
pub(crate) struct OpenFont {
    font: Font,
    context: Context,
    alphabet: OnceCell<Alphabet>,
    /// How the shapes were judged last, and but for what.
    shapes: RefCell<Option<(Meant, JudgementReport)>>,
    report: FontReport,
    characters: OnceCell<HashMap<u16, char>>,
}

impl OpenFont {
    /// Opens a font file, and reads only what its letters need to be drawn.
    ///
    /// # Errors
    /// If the file is no font that the lab can open.
    pub(crate) fn open(bytes: Vec<u8>, file_name: &str) -> Result<Self, FontError> {
        let font = Font::open(bytes)?;
        let context = Context::of(&font);
        let report = FontReport::new(&font, &context, file_name);
        Ok(Self {
            font,
            context,
            alphabet: OnceCell::new(),
            shapes: RefCell::default(),
            report,
            characters: OnceCell::new(),
        })
    }

    /// What the font says of itself, and what its letters say.
    pub(crate) fn report(&self) -> &FontReport {
        &self.report
    }

    /// The letters that are held against each other. They are measured when they
    /// are first asked for: the first picture does not wait for them.
    pub(crate) fn alphabet(&self) -> &Alphabet {
        self.alphabet
            .get_or_init(|| Alphabet::against(self.context.clone(), &self.font))
    }

    /// How the letters stand to each other, but for what is meant so. How many
    /// points each has and needs is counted elsewhere: it takes longer than all
    /// the rest, and changes nothing of how the shapes stand.
    pub(crate) fn judge(&self, meant: &[MeantSo], drawn: &[Drawn]) -> JudgementReport {
        let (alphabet, meant) = (self.alphabet(), MeantSo::gathered(meant));
        let known = self.shapes.take().filter(|(so, _)| *so == meant);
        let table = crate::learned::table();
        let shapes = known.map_or_else(|| JudgementReport::of(alphabet, table, &meant), |k| k.1);
        let report = shapes.clone().with_points(alphabet, drawn, &meant);
        if table.is_some() {
            self.shapes.replace(Some((meant, shapes)));
        }
        report
    }

    /// How the font keeps the optical rules.
    pub(crate) fn rules(&self) -> RulesReport {
        RulesReport::of(self.alphabet(), crate::learned::table())
    }

    /// A name for the file that its bytes alone lead to.
    pub(crate) fn fingerprint(&self) -> String {
        fingerprint::of(self.font.data())
    }

    /// The font's file, without what was drawn anew.
    pub(crate) fn file(&self) -> &[u8] {
        self.font.file()
    }

    /// What the font holds, to be held beside what is planned of it.
    pub(crate) fn contents(&self) -> ContentsReport {
        ContentsReport::of(&self.font)
    }

    /// A character's letter as a drawing; `None` if the font has none.
    pub(crate) fn drawing(&self, c: char) -> Option<LetterDrawing> {
        let reader = self.font.reader();
        let glyph = reader.glyph(c)?;
        let outline = reader.outline(glyph).unwrap_or_default();
        Some(LetterDrawing {
            character: c,
            glyph: glyph.0,
            advance: reader.advance(glyph),
            path: outline.to_bez_path().to_svg(),
        })
    }

    /// The first character that leads to a glyph.
    fn character(&self, glyph: u16) -> Option<char> {
        let characters = self.characters.get_or_init(|| {
            let mut first = HashMap::new();
            for (c, id) in self.font.reader().characters() {
                first.entry(id.0).or_insert(c);
            }
            first
        });
        characters.get(&glyph).copied()
    }
}

/// Shared, so that the page can ask for the report while the stage sets letters.
impl Supply for Rc<OpenFont> {
    fn units_per_em(&self) -> f64 {
        f64::from(self.font.units_per_em())
    }

    fn glyph(&self, c: char) -> Option<u16> {
        self.font.reader().glyph(c).map(|id| id.0)
    }

    fn cast(&self, glyph: u16) -> Option<(f64, Outline)> {
        if glyph >= self.font.glyph_count() {
            return None;
        }
        let (reader, id) = (self.font.reader(), GlyphId(glyph));
        // What is wrong with a broken glyph is told in its report.
        Some((reader.advance(id), reader.outline(id).unwrap_or_default()))
    }

    fn name(&self, glyph: u16) -> Option<String> {
        let reader = self.font.reader();
        reader.glyph_name(GlyphId(glyph)).map(str::to_owned)
    }

    fn guides(&self) -> &[Guide] {
        &self.report.guides
    }

    fn measure(&self, glyph: u16) -> LetterReport {
        let item = Item {
            glyph: GlyphId(glyph),
            character: self.character(glyph),
        };
        LetterReport::new(&self.font, &self.context, item)
    }

    fn redraw(&self, glyph: u16, within: Within) -> Option<Redrawn> {
        let outline = self.font.reader().outline(GlyphId(glyph)).ok()?;
        let context = DrawingContext {
            units_per_em: f64::from(self.font.units_per_em()),
            format: Some(self.font.format()),
        };
        let tolerance = match within {
            Within::Half => Tolerance::Half,
            Within::Two => Tolerance::Two,
        };
        (!outline.is_empty()).then(|| redrawn(&outline, &context, tolerance))
    }

    fn band(&self, c: char) -> Option<Band> {
        Band::of(c, &self.context)
    }

    fn grid(&self) -> Grid {
        Grid::of(&self.context)
    }

    fn opening(&self) -> String {
        let reader = self.font.reader();
        let has = |c: &char| reader.glyph(*c).is_some();
        let own: String = OPENING.chars().filter(has).collect();
        if !own.is_empty() {
            return own;
        }
        let inked = |id: GlyphId| reader.outline(id).is_ok_and(|o| !o.is_empty());
        let characters = reader.characters().into_iter();
        characters
            .filter(|(_, id)| inked(*id))
            .map(|(c, _)| c)
            .take(OPENING_LENGTH)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::Stage;
    use crate::stage::command::{Alignment, Command};
    use crate::stage::sorts::Sorts;
    use counterpoise::report::StrokeKind;

    fn sample() -> Rc<OpenFont> {
        let bytes = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
        Rc::new(OpenFont::open(bytes, "sample.ttf").unwrap())
    }

    fn stage() -> Stage {
        let mut stage = Stage::default();
        stage.resize(1200.0, 700.0);
        stage.set_sorts(Sorts::new(Box::new(sample())));
        stage
    }

    #[test]
    fn a_font_stands_on_the_stage_at_once() {
        let stage = stage();
        let state = stage.state();
        assert_eq!(state.text, OPENING);
        assert!(state.missing.is_empty());
        assert_eq!(state.items.len(), OPENING.len());
        for item in &state.items {
            let report = stage.report(f64::from(item.glyph.unwrap())).unwrap();
            assert!(report.trouble.is_none());
            assert!(!report.strokes.is_empty(), "{:?}", report.character);
        }
    }

    #[test]
    fn the_calliper_reads_what_the_strokes_say() {
        let mut stage = stage();
        let text = "H".to_owned();
        stage.run(Command::SetText { text }).unwrap();
        let [letter] = &stage.state().items[..] else {
            panic!("one letter stands on the line")
        };
        let report = stage.report(f64::from(letter.glyph.unwrap())).unwrap();
        let stem = report.strokes.iter().find(|s| s.kind == StrokeKind::Stem);
        let mark = stem.unwrap().marks[0];
        let x = letter.x;
        let beyond = |p: [f64; 2], by: f64| [p[0] + x + by, p[1]];
        let (from, to) = if mark.from[0] < mark.to[0] {
            (beyond(mark.from, -20.0), beyond(mark.to, 20.0))
        } else {
            (beyond(mark.to, -20.0), beyond(mark.from, 20.0))
        };
        stage.run(Command::LayCalliper { from, to }).unwrap();
        let read = stage.state().calliper.unwrap();
        assert!((read.intervals[1].length - mark.value).abs() < 0.5);
    }

    #[test]
    fn letters_line_up_by_the_stems_that_were_measured() {
        let mut stage = stage();
        let text = "HE".to_owned();
        stage.run(Command::SetText { text }).unwrap();
        stage.run(Command::SelectAll).unwrap();
        let by = Alignment::StemCentre;
        stage.run(Command::Align { by }).unwrap();
        assert_eq!(stage.state().undo.as_deref(), Some("Line E up"));
    }

    #[test]
    fn glyphs_beyond_the_font_are_none() {
        let font = sample();
        assert!(font.cast(u16::MAX).is_none());
        assert!(font.name(u16::MAX).is_none());
        assert!(font.measure(u16::MAX).trouble.is_some());
    }

    #[test]
    fn what_is_no_font_is_refused_by_name() {
        let refused = OpenFont::open(b"Dear foundry, ".to_vec(), "letter.txt").unwrap_err();
        assert_eq!(refused.code(), "not-a-font");
        assert_eq!(OpenFont::open(Vec::new(), "").unwrap_err().code(), "empty");
    }
}
