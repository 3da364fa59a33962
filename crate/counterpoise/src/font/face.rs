//! A face as the parser reads it, by those of its tables that the lab has a use for.

use std::ops::Deref;

use ttf_parser::{FaceParsingError, RawFace, RawFaceTables, Tag};

/// The parser's face beside the directory of all tables. The parser is given no
/// table that the lab never asks it about: colour, bitmaps, vertical setting and
/// mathematics cannot go wrong where they are not read.
pub(super) struct Face<'a> {
    raw: RawFace<'a>,
    parsed: ttf_parser::Face<'a>,
}

impl<'a> Face<'a> {
    pub(super) fn parse(data: &'a [u8], index: u32) -> Result<Self, FaceParsingError> {
        let raw = RawFace::parse(data, index)?;
        // Not looked up but gone through: a directory out of order is read all the same.
        let table = |tag: &[u8; 4]| {
            let wanted = Tag::from_bytes(tag);
            let record = raw
                .table_records
                .into_iter()
                .filter(|r| r.tag == wanted)
                .last()?;
            let start = usize::try_from(record.offset).ok()?;
            data.get(start..start.checked_add(usize::try_from(record.length).ok()?)?)
        };
        let parsed = ttf_parser::Face::from_raw_tables(RawFaceTables {
            head: table(b"head").unwrap_or_default(),
            hhea: table(b"hhea").unwrap_or_default(),
            maxp: table(b"maxp").unwrap_or_default(),
            cff: table(b"CFF "),
            cff2: table(b"CFF2"),
            cmap: table(b"cmap"),
            // How many axes a CFF2 charstring blends over.
            fvar: table(b"fvar"),
            glyf: table(b"glyf"),
            gsub: table(b"GSUB"),
            hmtx: table(b"hmtx"),
            loca: table(b"loca"),
            name: table(b"name"),
            os2: table(b"OS/2"),
            post: table(b"post"),
            ..RawFaceTables::default()
        })?;
        Ok(Self { raw, parsed })
    }

    /// Every table of the file, as bytes.
    pub(super) fn raw_face(&self) -> &RawFace<'a> {
        &self.raw
    }
}

impl<'a> Deref for Face<'a> {
    type Target = ttf_parser::Face<'a>;

    fn deref(&self) -> &Self::Target {
        &self.parsed
    }
}
