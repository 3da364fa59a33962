//! Names of a face: read for its report, and a style written for a position.

use crate::sfnt::{Tables, u16_at};
use read_fonts::tables::name::Name;
use read_fonts::types::NameId;
use read_fonts::{FontData, FontRead};

/// The longest name that is told.
const MOST: usize = 120;

const WINDOWS: u16 = 3;
const ENGLISH: u16 = 0x0409;

/// A name by its number, in English if there is one.
pub(crate) fn name(tables: &Tables<'_>, id: NameId) -> Option<String> {
    let table = Name::read(FontData::new(tables.get(b"name")?)).ok()?;
    let strings = table.string_data();
    let mut first = None;
    for record in table.name_record().iter().filter(|r| r.name_id() == id) {
        let Ok(string) = record.string(strings) else {
            continue;
        };
        let text: String = string
            .chars()
            .filter(|c| !c.is_control())
            .take(MOST)
            .collect();
        let text = text.trim().to_owned();
        if text.is_empty() {
            continue;
        }
        if record.platform_id() == WINDOWS && record.language_id() == ENGLISH {
            return Some(text);
        }
        first.get_or_insert(text);
    }
    first
}

/// The family and the style, the typographic ones before the others.
pub(crate) fn family_and_style(tables: &Tables<'_>) -> (String, String) {
    let either = |one, other| name(tables, one).or_else(|| name(tables, other));
    (
        either(NameId::TYPOGRAPHIC_FAMILY_NAME, NameId::FAMILY_NAME).unwrap_or_default(),
        either(NameId::TYPOGRAPHIC_SUBFAMILY_NAME, NameId::SUBFAMILY_NAME).unwrap_or_default(),
    )
}

/// A family's name without the style that it ends in: fonts that vary are often
/// named after the style that they open with.
fn family_alone(tables: &Tables<'_>) -> Option<String> {
    if name(tables, NameId::TYPOGRAPHIC_FAMILY_NAME).is_some() {
        return None;
    }
    let family = name(tables, NameId::FAMILY_NAME)?;
    let style = name(tables, NameId::TYPOGRAPHIC_SUBFAMILY_NAME)?;
    let alone = family.strip_suffix(&style)?.trim_end();
    (!alone.is_empty()).then(|| alone.to_owned())
}

/// The face's name table with this style and no other; everything else stays.
pub(crate) fn styled(tables: &Tables<'_>, style: &str) -> Option<Vec<u8>> {
    with_style(tables.get(b"name")?, style, family_alone(tables).as_deref())
}

/// The name table with this style, and the family if it is given.
fn with_style(table: &[u8], style: &str, family: Option<&str>) -> Option<Vec<u8>> {
    const HEADER: usize = 6;
    const RECORD: usize = 12;
    let styles = [NameId::SUBFAMILY_NAME, NameId::TYPOGRAPHIC_SUBFAMILY_NAME].map(|id| id.to_u16());
    let count = usize::from(u16_at(table, 2)?);
    let strings = usize::from(u16_at(table, 4)?);
    let mut records: Vec<([u16; 4], Vec<u8>)> = Vec::new();
    for i in 0..count {
        let at = HEADER + RECORD * i;
        let word = |k: usize| u16_at(table, at + 2 * k);
        let key = [word(0)?, word(1)?, word(2)?, word(3)?];
        if styles.contains(&key[3]) {
            continue;
        }
        let from = strings + usize::from(word(5)?);
        // A name that lies past the table's end is none.
        if let Some(text) = table.get(from..from + usize::from(word(4)?)) {
            records.push((key, text.to_vec()));
        }
    }
    let text = |s: &str| s.encode_utf16().flat_map(u16::to_be_bytes).collect();
    for id in styles {
        records.push(([WINDOWS, 1, ENGLISH, id], text(style)));
    }
    if let Some(family) = family {
        let id = NameId::TYPOGRAPHIC_FAMILY_NAME.to_u16();
        records.push(([WINDOWS, 1, ENGLISH, id], text(family)));
    }
    records.sort_by_key(|(key, _)| *key);

    let mut head = Vec::new();
    let mut body: Vec<u8> = Vec::new();
    let storage = HEADER + RECORD * records.len();
    for word in [
        0,
        u16::try_from(records.len()).ok()?,
        u16::try_from(storage).ok()?,
    ] {
        head.extend(word.to_be_bytes());
    }
    for (key, text) in records {
        let (length, offset) = (u16::try_from(text.len()), u16::try_from(body.len()));
        for word in key.into_iter().chain([length.ok()?, offset.ok()?]) {
            head.extend(word.to_be_bytes());
        }
        body.extend(text);
    }
    head.extend(body);
    Some(head)
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise::font::Font;

    #[test]
    fn the_style_alone_is_another() {
        let sample = crate::tests::sample();
        let before = Font::open(sample.clone()).unwrap();
        let mut tables = Tables::read(&sample, 0).unwrap();
        let table = styled(&tables, "Halbfett 350").unwrap();
        tables.put(*b"name", table);
        assert_eq!(family_and_style(&tables).1, "Halbfett 350");
        let after = Font::open(tables.write()).unwrap();
        assert_eq!(after.names().style.as_deref(), Some("Halbfett 350"));
        assert_eq!(after.names().family, before.names().family);
        assert_eq!(after.names().licence, before.names().licence);
    }
}
