//! The measures that the whole face shares, in font units.
//!
//! A drawing that wants another value than these says so where it departs, and
//! why. What is equal between letters is written here once.

/// Units per em.
pub(crate) const UNITS_PER_EM: u16 = 1000;

/// Top of the flat capitals and of the figures.
pub(crate) const CAP: f64 = 700.0;
/// Top of the flat lower case.
pub(crate) const X: f64 = 500.0;
/// Top of b, d, f, h, k, l.
///
/// It and [`DESC`] lie equally far from the middle of the x-height, so that p
/// turned half round is d, and q turned half round is b.
pub(crate) const ASC: f64 = 730.0;
/// Foot of g, j, p, q, y.
pub(crate) const DESC: f64 = -230.0;

/// How far rounds pass the flats in capitals and figures: 1.6% of [`CAP`].
pub(crate) const OVER: f64 = 11.0;
/// The same for the lower case: 2% of [`X`], since smaller rounds need more.
pub(crate) const OVER_X: f64 = 10.0;
/// How far the narrow cut apexes of A, V, W pass: a little more than rounds do.
/// One that stands between strokes which end on the line passes it by half.
pub(crate) const APEX: f64 = 12.0;
/// The same for v and w.
pub(crate) const APEX_X: f64 = 11.0;

/// Capital stem at its waist.
pub(crate) const STEM: f64 = 104.0;
/// Lower case stem at its waist.
pub(crate) const STEM_X: f64 = 95.0;
/// How far a stroke's end stands out on each side beyond its waist.
pub(crate) const FLARE: f64 = 10.0;
/// Capital bar where it leaves its stem.
pub(crate) const BAR: f64 = 80.0;

/// Capital round at its thickest.
pub(crate) const ROUND: f64 = 115.0;
/// Capital round at its thinnest, at top and foot.
pub(crate) const THIN: f64 = 68.0;
/// Lower case round at its thickest.
pub(crate) const ROUND_X: f64 = 105.0;
/// Lower case round at its thinnest.
pub(crate) const THIN_X: f64 = 61.0;

/// The lean of the stress: sine of the angle by which a counter is turned
/// back from the upright, as a right-handed brush would turn it.
pub(crate) const LEAN: f64 = 0.085;

/// Handle length of a round's outside, as a share of its quarter: 0.552 is a
/// circle, more is squarer.
pub(crate) const FULL: f64 = 0.575;
/// Handle length of a counter, a little squarer than the outside, so that the
/// strokes keep their weight round the corner.
pub(crate) const FULL_IN: f64 = 0.59;
