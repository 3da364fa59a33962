//! A variable font at a position, as a font that stands still.
//!
//! What the rest of the lab then opens is a plain file: outlines, advances,
//! heights and kerning are those of the position. Equality with fontTools'
//! instancer is held in `tests/checks/positions.rs`.

pub(crate) mod cff2;
mod charstring;
pub(crate) mod forms;
mod glyf;
mod glyph;
mod iup;
mod layout;
mod metrics;

use crate::FormatError;
use crate::face::fvar;
use crate::names;
use crate::sfnt::Tables;
use metrics::Metrics;
use read_fonts::tables::avar::Avar;
use read_fonts::types::{F2Dot14, Fixed};
use read_fonts::{FontData, FontRead};

/// A position, as its maker's axes count and as the tables do.
#[derive(Debug, Clone)]
struct Place {
    /// Each axis's tag and value.
    values: Vec<([u8; 4], f64)>,
    /// From -1 to 1, after avar.
    coordinates: Vec<F2Dot14>,
}

impl Place {
    /// The position of a font without axes.
    const NOWHERE: Self = Self {
        values: Vec::new(),
        coordinates: Vec::new(),
    };

    fn of(tables: &Tables<'_>, position: &[f64]) -> Option<Self> {
        let (fvar, axes) = fvar(tables)?;
        let values: Vec<_> = axes
            .iter()
            .zip(
                position
                    .iter()
                    .copied()
                    .map(Some)
                    .chain(std::iter::repeat(None)),
            )
            .map(|(axis, value)| {
                let value = value
                    .filter(|v| v.is_finite())
                    .unwrap_or(axis.default_value().to_f64());
                let value = value.clamp(axis.min_value().to_f64(), axis.max_value().to_f64());
                (axis.axis_tag().into_bytes(), value)
            })
            .collect();
        let avar = tables
            .get(b"avar")
            .and_then(|t| Avar::read(FontData::new(t)).ok());
        let mut coordinates = vec![F2Dot14::ZERO; axes.len()];
        let user = axes
            .iter()
            .zip(&values)
            .map(|(a, &(_, v))| (a.axis_tag(), Fixed::from_f64(v)));
        fvar.user_to_normalized(avar.as_ref(), user, &mut coordinates);
        Some(Self {
            values,
            coordinates,
        })
    }

    /// The value of an axis, if there is one of that tag.
    fn value(&self, tag: [u8; 4]) -> Option<f64> {
        self.values.iter().find(|(t, _)| *t == tag).map(|(_, v)| *v)
    }
}

/// Brings a face to a position: a value for each axis, in their order; what is
/// missing or no number is the default. The style is written into its names.
///
/// # Errors
/// If it does not vary, or its variations cannot be read.
pub(crate) fn still(
    tables: &mut Tables<'_>,
    position: &[f64],
    style: Option<&str>,
) -> Result<(), FormatError> {
    let place = Place::of(tables, position).ok_or(FormatError::Variations)?;
    let before = Metrics::read(tables);
    let mut metrics = before.clone();
    if tables.has(b"gvar") && tables.has(b"glyf") {
        glyf::vary(tables, &place, &mut metrics)?;
    } else if tables.has(b"CFF2") {
        cff2::vary(tables, &place)?;
    }
    metrics.vary(tables, &place, &before);
    metrics.write(tables);
    metrics::declared(tables, &place);
    layout::vary(tables, &place);
    forms::vary(tables, &place.coordinates);
    let named = style.and_then(|s| names::styled(tables, s));
    if let Some(table) = named {
        tables.put(*b"name", table);
    }
    tables.drop(&[*b"fvar", *b"avar", *b"STAT"]);
    Ok(())
}
