//! The tables of words: character map, glyph names, the face's own names.

use write_fonts::OffsetMarker;
use write_fonts::tables::cmap::Cmap;
use write_fonts::tables::name::{Name, NameRecord};
use write_fonts::tables::post::Post;
use write_fonts::types::{FWord, GlyphId, NameId};

use super::refused;
use crate::error::Error;
use crate::face::Face;
use crate::names;

pub(super) fn cmap(face: &Face) -> Result<Cmap, Error> {
    let mapped = face
        .letters
        .iter()
        .zip(0_u32..)
        .filter_map(|(letter, id)| Some((letter.code?, GlyphId::new(id))));
    Cmap::from_mappings(mapped).map_err(refused)
}

pub(super) fn post(face: &Face) -> Post {
    let mut post = Post::new_v2(face.letters.iter().map(|l| l.name));
    post.underline_position = FWord::new(-120);
    post.underline_thickness = FWord::new(60);
    post
}

pub(super) fn name(face: &Face) -> Name {
    let version = format!("Version {}", face.version);
    let unique = format!("{}; {}", face.version, names::FULL);
    // In order of their numbers, as the table wants them.
    let entries: [(NameId, &str); 12] = [
        (NameId::COPYRIGHT_NOTICE, names::COPYRIGHT),
        (NameId::FAMILY_NAME, names::FAMILY),
        (NameId::SUBFAMILY_NAME, names::STYLE),
        (NameId::UNIQUE_ID, &unique),
        (NameId::FULL_NAME, names::FULL),
        (NameId::VERSION_STRING, &version),
        (NameId::POSTSCRIPT_NAME, names::POSTSCRIPT),
        (NameId::MANUFACTURER, names::FOUNDRY),
        (NameId::DESIGNER, names::ARTIST),
        (NameId::DESCRIPTION, face.description),
        (NameId::LICENSE_DESCRIPTION, names::LICENCE),
        (NameId::SAMPLE_TEXT, names::SAMPLE),
    ];
    Name::new(
        entries
            .into_iter()
            .map(|(id, text)| NameRecord::new(3, 1, 0x409, id, OffsetMarker::new(text.to_owned())))
            .collect(),
    )
}
