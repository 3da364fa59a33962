//! The shaping library, behind one door. Font units.

use crate::reading;
use harfrust::{Buffer, ClusterLevel, Direction, Feature, Font, ShapeOptions, ShaperFont, Tag};

/// A line of text holds no more characters than this; the rest is not set. Far
/// more than a page's width shows, and set in some milliseconds.
pub const MOST_CHARACTERS: usize = 4096;

/// A glyph where the font's rules place it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// Its index in the font.
    pub glyph: u32,
    /// Which character of the text it begins with, counted in code points.
    pub character: u32,
    /// Its advance, kerned.
    pub advance: i32,
    /// How far it is moved right of its place.
    pub right: i32,
    /// How far it is moved up from the baseline.
    pub up: i32,
}

/// A font that sets text at its default instance.
pub struct Shaper(Font);

impl Shaper {
    /// Opens a face of a font file; `None` if it cannot be read.
    pub fn open(bytes: Vec<u8>, face: u32) -> Option<Self> {
        Font::new(bytes, face).map(Self)
    }

    /// Sets a line of text, with the font's kerning or without, each stretch the
    /// way that it is read. Glyphs come as they stand from left to right.
    /// Ligatures are left apart, but for those that a script cannot be written
    /// without: the lab looks at letters.
    pub fn shape(&self, text: &str, kerning: bool) -> Vec<Placed> {
        let text: String = text.chars().take(MOST_CHARACTERS).collect();
        let characters: Vec<char> = text.chars().collect();
        let runs = reading::runs(&text);
        let run = |at: usize| {
            let (range, level) = &runs[at];
            let first = range.start as u32;
            self.run(&characters[range.clone()], first, level % 2 == 1, kerning)
        };
        let standing = reading::standing(&runs);
        standing.into_iter().flat_map(run).collect()
    }

    /// Sets characters that are read one way, counted from a first.
    pub(crate) fn run(
        &self,
        characters: &[char],
        first: u32,
        leftwards: bool,
        kerning: bool,
    ) -> Vec<Placed> {
        let font = ShaperFont::new(&self.0);
        let mut buffer = Buffer::new();
        for (at, &c) in (first..).zip(characters) {
            buffer.push(c.into(), at);
        }
        buffer.set_direction(if leftwards {
            Direction::RightToLeft
        } else {
            Direction::LeftToRight
        });
        buffer.guess_segment_properties();
        // Marks are glyphs of their own on the stage.
        buffer.set_cluster_level(ClusterLevel::MonotoneCharacters);
        let off = |tag: &[u8; 4]| Feature::new(Tag::new(tag), 0, ..);
        let mut features = vec![off(b"liga"), off(b"clig")];
        if !kerning {
            features.push(off(b"kern"));
        }
        if harfrust::shape(&font, &mut buffer, ShapeOptions::new().features(&features)).is_err() {
            return Vec::new();
        }
        let infos = buffer.glyph_infos().iter();
        infos
            .zip(buffer.glyph_positions())
            .map(|(info, position)| Placed {
                glyph: info.glyph_id,
                character: info.cluster,
                advance: position.x_advance,
                right: position.x_offset,
                up: position.y_offset,
            })
            .collect()
    }
}
