//! The refit made presentable: of two curves that share a smooth stretch, one
//! must not be long and the other a stub, and their handles must be in line.
//! The number of points stays as it is.

use super::fewest::{Piece, curve};
use super::fit::{Ends, Fitter};
use super::run::Run;
use crate::measure::drawing::joint::{handle_in, handle_out, unit};
use crate::order::by_number;
use kurbo::{CubicBez, Vec2};

/// Nodes of a plateau that are tried as the point at the extreme.
const TRIED: usize = 5;

/// Evens out the pieces of a run, one joint after the other.
pub(super) fn even(run: &Run, pieces: &mut [Piece], tolerance: f64, fitter: &mut Fitter) {
    let mut tangents: Vec<Option<Vec2>> = run.nodes.iter().map(|n| n.mark.tangent).collect();
    for k in 1..pieces.len() {
        if let (Piece::Curve(i, j, _), Piece::Curve(_, l, _)) = (pieces[k - 1], pieces[k]) {
            let mut pair = |m: usize, tangents: &[Option<Vec2>]| {
                fit_pair(run, (i, m, l), tangents, tolerance, fitter)
            };
            let at_extreme = extreme(run, j).into_iter().find_map(|m| {
                if !(i < m && m < l && m <= run.reach[i] && l <= run.reach[m]) {
                    return None;
                }
                let was = tangents[m];
                tangents[m] = was.or(run.nodes[m].mark.wish);
                let fits = pair(m, &tangents);
                if fits.is_none() {
                    tangents[m] = was;
                }
                fits.map(|f| (m, f))
            });
            let moved = at_extreme.or_else(|| {
                let m = halfway(run, i, l).filter(|&m| m != j)?;
                Some((m, pair(m, &tangents)?))
            });
            if let Some((m, (a, b))) = moved {
                pieces[k - 1] = Piece::Curve(i, m, a);
                pieces[k] = Piece::Curve(m, l, b);
            }
        }
        align(run, pieces, k, &mut tangents, tolerance, fitter);
    }
}

/// The nodes that may stand for a node at an extreme, those nearest to the
/// middle of its plateau first; none of a node that is at none, or the only one.
fn extreme(run: &Run, node: usize) -> Vec<usize> {
    let Some(&(first, last)) = run
        .plateaus
        .iter()
        .find(|(first, last)| first < last && (*first..=*last).contains(&node))
    else {
        return Vec::new();
    };
    let way = |node: usize| run.way[run.nodes[node].sample];
    let off = |node: usize| (way(node) - 0.5 * (way(first) + way(last))).abs();
    let mut nodes: Vec<usize> = (first..=last)
        .filter(|&n| run.nodes[n].mark.wish.is_some())
        .collect();
    by_number(&mut nodes, |&node| off(node));
    nodes.truncate(TRIED);
    nodes
}

/// The node between `i` and `l` whose way to both is most alike, if curves from
/// `i` and to `l` may meet there.
fn halfway(run: &Run, i: usize, l: usize) -> Option<usize> {
    let way = |node: usize| run.way[run.nodes[node].sample];
    let middle = 0.5 * (way(i) + way(l));
    (i + 1..l)
        .filter(|&m| m <= run.reach[i] && l <= run.reach[m])
        .min_by(|&a, &b| (way(a) - middle).abs().total_cmp(&(way(b) - middle).abs()))
}

fn fit_pair(
    run: &Run,
    (i, m, l): (usize, usize, usize),
    tangents: &[Option<Vec2>],
    tolerance: f64,
    fitter: &mut Fitter,
) -> Option<(CubicBez, CubicBez)> {
    let mut fit = |a: usize, b: usize| {
        let ends = Ends {
            start: tangents[a],
            end: tangents[b],
        };
        curve(run, a, b, ends, tolerance, fitter)
    };
    Some((fit(i, m)?, fit(m, l)?))
}

/// Brings the handles on both sides of a joint in line, where that leaves both
/// pieces within the tolerance.
fn align(
    run: &Run,
    pieces: &mut [Piece],
    k: usize,
    tangents: &mut [Option<Vec2>],
    tolerance: f64,
    fitter: &mut Fitter,
) {
    let (before, after) = (pieces[k - 1], pieces[k]);
    let node = before.to();
    if tangents[node].is_some() {
        return;
    }
    for direction in [run.nodes[node].mark.wish, common(run, &before, &after)] {
        let Some(direction) = direction else { continue };
        tangents[node] = Some(direction);
        let refitted = (
            refit(run, &before, tangents, tolerance, fitter),
            refit(run, &after, tangents, tolerance, fitter),
        );
        if let (Some(a), Some(b)) = refitted {
            (pieces[k - 1], pieces[k]) = (a, b);
            return;
        }
    }
    tangents[node] = None;
}

/// The direction that two pieces should share where they meet; `None` if neither
/// gives way.
fn common(run: &Run, before: &Piece, after: &Piece) -> Option<Vec2> {
    match (held(run, before, true), held(run, after, false)) {
        (Some(_), Some(_)) => None,
        (Some(d), None) | (None, Some(d)) => unit(d),
        (None, None) => match (before, after) {
            (Piece::Curve(_, _, c), Piece::Curve(_, _, d)) => {
                unit(unit(c.p3 - c.p2)? + unit(d.p1 - d.p0)?)
            }
            _ => None,
        },
    }
}

/// The direction that a piece keeps at its end, or at its start; `None` of a
/// curve that gives way.
fn held(run: &Run, piece: &Piece, end: bool) -> Option<Vec2> {
    match *piece {
        Piece::Line(i, j) => Some(run.at(j) - run.at(i)),
        Piece::Kept(leg) if end => Some(handle_in(&run.legs[leg])),
        Piece::Kept(leg) => Some(handle_out(&run.legs[leg])),
        Piece::Curve(..) => None,
    }
}

fn refit(
    run: &Run,
    piece: &Piece,
    tangents: &[Option<Vec2>],
    tolerance: f64,
    fitter: &mut Fitter,
) -> Option<Piece> {
    match *piece {
        Piece::Curve(i, j, _) => {
            let ends = Ends {
                start: tangents[i],
                end: tangents[j],
            };
            curve(run, i, j, ends, tolerance, fitter).map(|c| Piece::Curve(i, j, c))
        }
        kept => Some(kept),
    }
}
