//! Names, authorship and licence: the name table (OpenType specification).

use super::face::Face;
use ttf_parser::name::Table;
use ttf_parser::{PlatformId, name_id};

/// The longest name kept. A licence may fill pages; the lab shows its beginning.
const MAX_CHARS: usize = 4_000;

/// What a font says of itself; `None` where it is silent.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Names {
    /// Typographic family, else family.
    pub family: Option<String>,
    /// Typographic style, else style.
    pub style: Option<String>,
    /// Version string.
    pub version: Option<String>,
    /// Who drew it.
    pub designer: Option<String>,
    /// Who published it.
    pub manufacturer: Option<String>,
    /// Copyright line.
    pub copyright: Option<String>,
    /// Licence.
    pub licence: Option<String>,
    /// Where the licence stands.
    pub licence_url: Option<String>,
}

impl Names {
    pub(super) fn read(face: &Face<'_>) -> Self {
        let Some(table) = face.tables().name else {
            return Self::default();
        };
        let get = |id| find(&table, id);
        Self {
            family: get(name_id::TYPOGRAPHIC_FAMILY).or_else(|| get(name_id::FAMILY)),
            style: get(name_id::TYPOGRAPHIC_SUBFAMILY).or_else(|| get(name_id::SUBFAMILY)),
            version: get(name_id::VERSION),
            designer: get(name_id::DESIGNER),
            manufacturer: get(name_id::MANUFACTURER),
            copyright: get(name_id::COPYRIGHT_NOTICE),
            licence: get(name_id::LICENSE),
            licence_url: get(name_id::LICENSE_URL),
        }
    }
}

/// US English on platform 3.
const ENGLISH: u16 = 0x0409;

/// The name in English if there is one, else in the first language given.
fn find(table: &Table<'_>, id: u16) -> Option<String> {
    let mut first = None;
    for name in table.names.into_iter().filter(|n| n.name_id == id) {
        let text = match name.platform_id {
            _ if name.is_unicode() => name.to_string(),
            PlatformId::Macintosh if name.encoding_id == 0 => Some(roman(name.name)),
            _ => None,
        };
        let Some(text) = text.map(|t| clean(&t)).filter(|t| !t.is_empty()) else {
            continue;
        };
        if name.platform_id == PlatformId::Windows && name.language_id == ENGLISH {
            return Some(text);
        }
        first.get_or_insert(text);
    }
    first
}

/// Macintosh Roman. Only its ASCII half is told; the rest would need a table
/// that old fonts alone use.
fn roman(bytes: &[u8]) -> String {
    bytes
        .iter()
        .map(|&b| {
            if b.is_ascii() {
                char::from(b)
            } else {
                '\u{FFFD}'
            }
        })
        .collect()
}

/// Drops control characters and bounds the length: a name is shown, never trusted.
fn clean(text: &str) -> String {
    text.chars()
        .map(|c| if c == '\n' || c == '\r' { ' ' } else { c })
        .filter(|c| !c.is_control())
        .take(MAX_CHARS)
        .collect::<String>()
        .trim()
        .to_owned()
}
