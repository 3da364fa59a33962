//! Letters with their points, ready for the tables.

use write_fonts::read::tables::glyf::CurvePoint;
use write_fonts::tables::glyf::{Bbox, Contour, Glyph, SimpleGlyph};

use crate::error::Error;
use crate::face::{Face, Letter};
use crate::spline::{self, Curves, Knot};

/// A letter with its points.
pub(super) struct Outline<'a> {
    pub(super) letter: &'a Letter,
    pub(super) contours: Vec<Vec<Knot>>,
}

impl Outline<'_> {
    /// The glyph as TrueType stores it.
    pub(super) fn glyf(&self) -> Glyph {
        if self.contours.is_empty() {
            return Glyph::Empty;
        }
        let contours = self
            .contours
            .iter()
            .map(|c| {
                c.iter()
                    .map(|k| {
                        if k.on {
                            CurvePoint::on_curve(k.x, k.y)
                        } else {
                            CurvePoint::off_curve(k.x, k.y)
                        }
                    })
                    .collect::<Vec<_>>()
                    .into()
            })
            .collect::<Vec<Contour>>();
        let mut glyph = SimpleGlyph {
            contours,
            ..SimpleGlyph::default()
        };
        glyph.recompute_bounding_box();
        Glyph::Simple(glyph)
    }

    /// The box of the outline. All extremes carry points, so the points' box
    /// is the curves' box.
    pub(super) fn bounds(&self) -> Option<Bbox> {
        self.glyf().bbox()
    }
}

/// The box about all letters.
pub(super) fn extent(glyphs: &[Outline<'_>]) -> Bbox {
    glyphs
        .iter()
        .filter_map(Outline::bounds)
        .reduce(Bbox::union)
        .unwrap_or_default()
}

/// Every letter of a face in the curves of a format.
pub(super) fn outlines(face: &Face, curves: Curves) -> Result<Vec<Outline<'_>>, Error> {
    face.letters
        .iter()
        .map(|letter| {
            spline::knots(&letter.path, curves, letter.name)
                .map(|contours| Outline { letter, contours })
        })
        .collect()
}
