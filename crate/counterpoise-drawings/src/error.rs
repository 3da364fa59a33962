//! Why a drawing could not be read, told to the person who dropped it.

use std::fmt;

/// Why a drawing could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DrawingError {
    /// The file has no bytes, or the text no characters.
    Empty,
    /// More bytes than [`DrawingError::MAX_BYTES`].
    TooLarge,
    /// It is no text that XML allows.
    NotXml(String),
    /// It is XML of another kind.
    NotSvg,
    /// Its elements lie deeper in one another, or refer to one another more
    /// deeply, than [`DrawingError::MAX_DEPTH`].
    TooDeep,
    /// It has entities that are made of entities, or come from outside.
    Entities,
    /// It has more points than [`DrawingError::MAX_POINTS`], each use counted.
    TooManyPoints,
    /// It has more elements than [`DrawingError::MAX_ELEMENTS`], each use counted.
    TooManyElements,
    /// It holds a number above [`DrawingError::MAX_NUMBER`].
    TooFar,
    /// The reader of SVG gave it up.
    Unreadable,
    /// It holds no ink.
    NoInk,
    /// It is no zip file that can be read.
    NotZip,
    /// The zip file holds no UFO folder.
    NoUfo,
    /// A file of the UFO is missing or damaged; its name.
    BrokenUfo(String),
    /// A UFO of a version that the lab does not know.
    UfoVersion(String),
    /// What the zip file unpacks to is more than [`DrawingError::MAX_UNPACKED`].
    Unpacked,
    /// The glyph file is damaged: where.
    BrokenGlyph(String),
    /// The height given for the letters is none.
    NoHeight,
}

impl DrawingError {
    /// The most bytes of a drawing: a hundred times what a drawn alphabet takes.
    /// More would hold the page up.
    pub const MAX_BYTES: usize = 16 << 20;
    /// The most points of a drawing. An alphabet by hand has some thousand,
    /// traces some tens of thousands; measuring more would take minutes.
    pub const MAX_POINTS: usize = 200_000;
    /// The most elements of a drawing.
    pub const MAX_ELEMENTS: usize = 50_000;
    /// The largest number that may say where something is, or how large: a
    /// hundred metres, drawn in hundredths of a millimetre.
    pub const MAX_NUMBER: f64 = 1e7;
    /// The deepest that elements may lie: drawing programs nest tens of groups;
    /// a thousand would exhaust the stack of a page's module.
    pub const MAX_DEPTH: usize = 100;
    /// The most bytes that a zipped UFO may unpack to.
    pub const MAX_UNPACKED: u64 = 64 << 20;

    /// A name for this kind of error that never changes.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::TooLarge => "too-large",
            Self::NotXml(_) => "not-xml",
            Self::NotSvg => "not-svg",
            Self::TooDeep => "too-deep",
            Self::Entities => "entities",
            Self::TooManyPoints => "too-many-points",
            Self::TooManyElements => "too-many-elements",
            Self::TooFar => "too-far",
            Self::Unreadable => "unreadable",
            Self::NoInk => "no-ink",
            Self::NotZip => "not-zip",
            Self::NoUfo => "no-ufo",
            Self::BrokenUfo(_) => "broken-ufo",
            Self::UfoVersion(_) => "ufo-version",
            Self::Unpacked => "unpacked",
            Self::BrokenGlyph(_) => "broken-glyph",
            Self::NoHeight => "no-height",
        }
    }
}

impl fmt::Display for DrawingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("There is nothing in this drawing. Save it again."),
            Self::TooLarge => write!(
                f,
                "This drawing has more than {} megabytes. Save the letters alone, without pictures.",
                Self::MAX_BYTES >> 20
            ),
            Self::NotXml(said) => write!(
                f,
                "This drawing is damaged and cannot be read ({said}). Save it again as SVG."
            ),
            Self::NotSvg => {
                f.write_str("This is not an SVG drawing. Save the letters as SVG, and drop that.")
            }
            Self::TooDeep => write!(
                f,
                "The parts of this drawing lie more than {} deep in one another. Ungroup them and \
                 save it again.",
                Self::MAX_DEPTH
            ),
            Self::Entities => f.write_str(
                "This drawing has shorthands made of shorthands (nested or outside entities), \
                 which the lab does not follow. Save it as plain SVG.",
            ),
            Self::TooManyPoints => write!(
                f,
                "This drawing has more than {} points. Draw the letters with fewer, or drop them \
                 one by one.",
                Self::MAX_POINTS
            ),
            Self::TooManyElements => write!(
                f,
                "This drawing has more than {} parts. Save the letters alone.",
                Self::MAX_ELEMENTS
            ),
            Self::TooFar => write!(
                f,
                "This drawing holds a number of more than {} million, farther than any letter \
                 reaches. Place the letters on a sheet of common size and save it again.",
                Self::MAX_NUMBER / 1e6
            ),
            Self::Unreadable => f.write_str(
                "This drawing cannot be read as SVG. Save it as plain SVG and drop it again.",
            ),
            Self::NoInk => f.write_str(
                "This drawing holds no filled shape and no stroke, so there is no letter in it. \
                 Text must be turned to outlines, and shapes have a colour other than white.",
            ),
            Self::NotZip => {
                f.write_str("This zip file is damaged and cannot be unpacked. Zip the UFO again.")
            }
            Self::NoUfo => f.write_str(
                "There is no UFO in this zip file (no metainfo.plist). Zip the UFO folder itself.",
            ),
            Self::BrokenUfo(name) => write!(
                f,
                "The file {name} of this UFO is missing or damaged. Save the UFO again."
            ),
            Self::UfoVersion(version) => write!(
                f,
                "This UFO says that its format is {version}; the lab reads 2 and 3. Save it as UFO 3."
            ),
            Self::Unpacked => write!(
                f,
                "This zip file unpacks to more than {} megabytes. Zip the UFO alone.",
                Self::MAX_UNPACKED >> 20
            ),
            Self::BrokenGlyph(said) => write!(
                f,
                "This glyph file is damaged ({said}). Save the glyph again."
            ),
            Self::NoHeight => f.write_str(
                "The two guides lie in one place, so the letters have no height. Drag them apart.",
            ),
        }
    }
}

impl std::error::Error for DrawingError {}
