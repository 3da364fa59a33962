//! Straight pieces that go on behind a crossing stroke are one stroke.

use super::pieces::Piece;
use super::station::Caster;
use crate::outline::Outline;

/// Pieces of one stroke differ in direction by less than this (radians, 4 degrees).
const SAME_DIRECTION: f64 = 4.0 * std::f64::consts::PI / 180.0;

/// The thinner of two pieces of one stroke has at least this share of the
/// other's thickness. The halves of an x are alike; the thin arm of a serif and
/// the arm that it ends are not.
const SAME_THICKNESS: f64 = 0.8;

/// How far the middle lines may miss each other, in thicknesses: the halves of
/// an X are drawn a little out of line, so that they look in line.
const OUT_OF_LINE: f64 = 0.35;

/// Joins pieces in line whose gap is ink throughout.
pub(super) fn join(mut pieces: Vec<Piece>, outline: &Outline) -> Vec<Piece> {
    let mut caster = Caster::new(outline);
    let mut i = 0;
    while i < pieces.len() {
        let partner =
            (i + 1..pieces.len()).find(|&j| one_stroke(&pieces[i], &pieces[j], &mut caster));
        match partner {
            // Look again from the same piece: it reaches further now.
            Some(j) => {
                let other = pieces.remove(j);
                pieces[i].extend(&other);
            }
            None => i += 1,
        }
    }
    pieces
}

fn one_stroke(a: &Piece, b: &Piece, caster: &mut Caster<'_>) -> bool {
    if !a.straight || !b.straight {
        return false;
    }
    let (u, v) = (a.direction, b.direction);
    let (thin, thick) = if a.thickness < b.thickness {
        (a.thickness, b.thickness)
    } else {
        (b.thickness, a.thickness)
    };
    if u.cross(v).abs() > SAME_DIRECTION || thin < SAME_THICKNESS * thick {
        return false;
    }
    let middle = b.ends.0.midpoint(b.ends.1) - a.ends.0.midpoint(a.ends.1);
    if u.cross(middle).abs() > OUT_OF_LINE * thin {
        return false;
    }
    // The ends that face each other.
    let (near_a, near_b) = if u.dot(middle) > 0.0 {
        (a.ends.1, if u.dot(v) > 0.0 { b.ends.0 } else { b.ends.1 })
    } else {
        (a.ends.0, if u.dot(v) > 0.0 { b.ends.1 } else { b.ends.0 })
    };
    caster.all_ink(near_a, near_b)
}
