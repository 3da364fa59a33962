//! Runs cut where they turn from straight to curved, and seen once, not twice.

use super::run::Run;
use super::station::{Station, unit};
use crate::measure::median;
use crate::order::by_number;
use crate::outline::Outline;
use kurbo::{Point, Rect, Vec2};

/// A middle line that stays this near its chord, as a share of the em or of
/// the chord, is straight. Below the first no eye sees a bend; the second lets
/// a hand-cut stem of some length waver.
const STRAIGHT_EM: f64 = 0.0008;
const STRAIGHT_CHORD: f64 = 0.012;

/// A straight stretch between curved edges must be this long, in thicknesses
/// and as a share of the em: else the flat of every bowl would be a stem.
const LEAST_THICKNESSES: f64 = 1.3;
const LEAST_EM: f64 = 0.11;

/// Directions along a straight stretch stay within this (cosine of 5 degrees).
const STRAIGHT_TURN: f64 = 0.996_194_7;

/// A piece is at least this many thicknesses long. The bar of an H read across
/// its length is a seventh, a stem of the blackest H read across is a third;
/// the stub of a bold t's bar on one side of its stem is a half.
const LEAST_PIECE: f64 = 0.4;

/// Stations thicker than this, in medians of the piece, flare into a serif.
const FLARED: f64 = 1.05;

/// A station reads the ink of a piece if its centre lies this near the piece's
/// middle line, in thicknesses of the thinner.
const BESIDE: f64 = 0.3;

/// A station reads along a piece if their directions are nearer than this
/// (cosine of 26 degrees).
const ALONG: f64 = 0.9;

/// A straight or curved stretch of a stroke.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    pub(super) stations: Vec<Station>,
    pub(super) straight: bool,
    /// As [`Run::closed`].
    pub(super) closed: bool,
    /// As [`Run::free`]: at an end that is not, the stroke goes on as another piece.
    pub(super) free: (bool, bool),
    /// Ends of the middle line.
    pub(super) ends: (Point, Point),
    pub(super) length: f64,
    /// Typical thickness: the median.
    pub(super) thickness: f64,
    /// Mean direction; of a curve, nothing of use.
    pub(super) direction: Vec2,
}

impl Piece {
    fn new(run: Run, straight: bool, outline: &Outline) -> Option<Self> {
        let Run {
            stations,
            closed,
            free,
            lead,
        } = run;
        let (first, last) = (stations.first()?, stations.last()?);
        let (before, after) = (reach(first, outline, -1.0), reach(last, outline, 1.0));
        let ends = (
            first.centre() - before * first.along,
            last.centre() + after * last.along,
        );
        let mut length = before + after + lead.0 + lead.1;
        length += stations.windows(2).map(|w| way(&w[0], &w[1])).sum::<f64>();
        if closed {
            length += way(last, first);
        }
        let thickness = median(&mut stations.iter().map(|s| s.thickness).collect::<Vec<_>>());
        // Flared ends lean with their serifs; the body says which way it runs,
        // by its straight edges if it has any.
        let lines = stations.iter().any(|s| s.straight);
        let body = stations.iter().filter(|s| match lines {
            true => s.straight,
            false => s.thickness <= FLARED * thickness,
        });
        let sum = body.fold(Vec2::ZERO, |sum, s| sum + s.along);
        let direction = unit(sum).unwrap_or(first.along);
        Some(Self {
            stations,
            straight,
            closed,
            free,
            ends,
            length,
            thickness,
            direction,
        })
    }

    /// The box outside of which no station's centre is on this piece.
    fn extent(&self) -> Rect {
        let ends = Rect::from_points(self.ends.0, self.ends.1);
        let line = self.stations.iter().map(Station::centre);
        // Rounding in the distance must not lose a station at the very edge.
        let slack = BESIDE * self.thickness + 1e-6;
        line.fold(ends, |extent, centre| extent.union_pt(centre))
            .inflate(slack, slack)
    }

    /// Joins another piece on behind the last station.
    pub(super) fn extend(&mut self, other: &Self) {
        let u = self.direction;
        self.stations.extend(other.stations.iter().map(|s| {
            // The other may have been walked the other way.
            let mut s = *s;
            if s.along.dot(u) < 0.0 {
                s.along = -s.along;
                std::mem::swap(&mut s.near, &mut s.far);
            }
            s
        }));
        by_number(&mut self.stations, |s| u.dot(s.centre().to_vec2()));
        let mut ends = [self.ends.0, self.ends.1, other.ends.0, other.ends.1];
        by_number(&mut ends, |p| u.dot(p.to_vec2()));
        self.ends = (ends[0], ends[3]);
        self.length = (ends[3] - ends[0]).hypot();
        self.thickness = median(
            &mut self
                .stations
                .iter()
                .map(|s| s.thickness)
                .collect::<Vec<_>>(),
        );
    }
}

/// Way along the middle line from one station to the next, taken as an arc:
/// its chord, longer by a 24th of the square of its turn.
fn way(a: &Station, b: &Station) -> f64 {
    let chord = (b.centre() - a.centre()).hypot();
    if a.along == b.along {
        return chord;
    }
    let turn = a.along.cross(b.along).atan2(a.along.dot(b.along));
    chord * (1.0 + turn * turn / 24.0)
}

/// How far the stroke goes on past a station between two straight edges,
/// before (`sign` -1) or after it (+1); nought along curves.
fn reach(s: &Station, outline: &Outline, sign: f64) -> f64 {
    if !s.straight {
        return 0.0;
    }
    let ahead = |segment: usize| {
        let seg = &outline.segments()[segment];
        let c = s.centre();
        [seg.start(), seg.end()]
            .into_iter()
            .map(|p| sign * s.along.dot(p - c))
            .fold(0.0, f64::max)
    };
    // Where the run ends although both edges go on, other ink has come between
    // before the next station.
    ahead(s.near.segment)
        .min(ahead(s.far.segment))
        .min(s.spacing)
}

/// Cuts runs into pieces and drops those seen from the other edge already.
pub(super) fn pieces(runs: Vec<Run>, outline: &Outline, units_per_em: f64) -> Vec<Piece> {
    let mut found = Vec::new();
    for run in runs {
        cut(run, outline, units_per_em, &mut found);
    }
    // Longest first, so that a whole edge wins over the parts of its opposite;
    // of like length the straight one, then the thinner, so that a bar wins
    // over the reading across it.
    by_number(&mut found, |p| -p.length / p.thickness.max(1e-9).sqrt());
    let mut kept: Vec<Piece> = Vec::new();
    let mut extents: Vec<Rect> = Vec::new();
    let keep = |piece: Piece, kept: &mut Vec<Piece>, extents: &mut Vec<Rect>| {
        if piece.length >= LEAST_PIECE * piece.thickness && !is_junction(&piece, kept) {
            extents.push(piece.extent());
            kept.push(piece);
        }
    };
    for piece in found {
        // Most stations are not even near most pieces.
        let covered = |s: &Station| {
            let near = |extent: &Rect| extent.contains(s.centre());
            kept.iter()
                .zip(&extents)
                .any(|(k, extent)| near(extent) && covers(k, s))
        };
        let covered: Vec<bool> = piece.stations.iter().map(covered).collect();
        if covered.contains(&true) {
            for rest in uncovered(&piece, &covered, outline) {
                keep(rest, &mut kept, &mut extents);
            }
        } else {
            keep(piece, &mut kept, &mut extents);
        }
    }
    kept
}

/// Cuts one run at its longest straight stretch, and again what is left.
fn cut(run: Run, outline: &Outline, units_per_em: f64, into: &mut Vec<Piece>) {
    let n = run.stations.len();
    let Some((from, to)) = longest_straight(&run, outline, units_per_em) else {
        into.extend(Piece::new(run, false, outline));
        return;
    };
    if (from, to) == (0, n) && !run.closed {
        let whole = Run {
            free: (false, false),
            lead: (0.0, 0.0),
            ..run
        };
        into.extend(Piece::new(whole, true, outline));
        return;
    }
    let s = |i: usize| &run.stations[i % n];
    // The way over a cut is the curved neighbour's.
    let (way_in, way_out) = (way(s(from + n - 1), s(from)), way(s(to - 1), s(to)));
    let straight = Run {
        stations: run.stations[from..to].to_vec(),
        closed: false,
        free: (false, false),
        lead: (0.0, 0.0),
    };
    into.extend(Piece::new(straight, true, outline));
    if run.closed {
        // What is left of a ring is one stretch from the cut's end round to its start.
        let rest = Run {
            stations: (to..n + from).map(|i| *s(i)).collect(),
            closed: false,
            free: (false, false),
            lead: (way_out, way_in),
        };
        if !rest.stations.is_empty() {
            cut(rest, outline, units_per_em, into);
        }
        return;
    }
    if from > 0 {
        let before = Run {
            stations: run.stations[..from].to_vec(),
            closed: false,
            free: (run.free.0, false),
            lead: (run.lead.0, way_in),
        };
        cut(before, outline, units_per_em, into);
    }
    if to < n {
        let after = Run {
            stations: run.stations[to..].to_vec(),
            closed: false,
            free: (false, run.free.1),
            lead: (way_out, run.lead.1),
        };
        cut(after, outline, units_per_em, into);
    }
}

/// The longest straight stretch, as a range of stations.
fn longest_straight(run: &Run, outline: &Outline, units_per_em: f64) -> Option<(usize, usize)> {
    let stations = &run.stations;
    let n = stations.len();
    let mut best = None;
    let mut best_length = 0.0;
    for from in 0..n {
        let mut to = from + 1;
        while to < n && is_straight(&stations[from..=to], units_per_em) {
            to += 1;
        }
        // A short stretch between straight edges counts where a longer one that
        // runs on into a curve does not.
        let lines = stations[from..to].iter().take_while(|s| s.straight).count();
        for (to, lines) in [(to, lines == to - from), (from + lines, true)] {
            // The flat of a bowl goes on into its curve; a stretch that is all
            // of its run is straight however short.
            let whole = n > 1 && from == 0 && to == n && !run.closed;
            let part = &stations[from..to];
            let Some(length) = straight_length(part, lines || whole, outline, units_per_em) else {
                continue;
            };
            if length > best_length {
                best = Some((from, to));
                best_length = length;
            }
        }
        // A stretch that begins inside another and ends with it is shorter.
        if to == n && best.is_some() {
            break;
        }
    }
    best
}

/// Length of a straight stretch; `None` if it is too short to be taken for one,
/// unless it is `surely` straight.
fn straight_length(
    part: &[Station],
    surely: bool,
    outline: &Outline,
    units_per_em: f64,
) -> Option<f64> {
    let (first, last) = (part.first()?, part.last()?);
    let length = (last.centre() - first.centre()).hypot()
        + reach(first, outline, -1.0)
        + reach(last, outline, 1.0);
    let least = (LEAST_THICKNESSES * first.thickness).max(LEAST_EM * units_per_em);
    (surely || (part.len() > 2 && length >= least)).then_some(length)
}

/// Whether the middle line stays on its chord and the stroke keeps its direction.
fn is_straight(stations: &[Station], units_per_em: f64) -> bool {
    let (first, last) = (&stations[0], &stations[stations.len() - 1]);
    let chord = last.centre() - first.centre();
    let length = chord.hypot();
    let Some(u) = unit(chord) else { return false };
    let slack = (STRAIGHT_EM * units_per_em).max(STRAIGHT_CHORD * length);
    stations.iter().all(|s| {
        u.cross(s.centre() - first.centre()).abs() <= slack && u.dot(s.along) >= STRAIGHT_TURN
    })
}

/// The parts of a piece whose stations no kept piece covers.
fn uncovered(piece: &Piece, covered: &[bool], outline: &Outline) -> Vec<Piece> {
    let mut rest = Vec::new();
    let n = piece.stations.len();
    let mut from = 0;
    while from < n {
        let to = from + covered[from..].iter().take_while(|c| !**c).count();
        // A lone station beside covered ones reaches along the same edges into
        // ink that is counted already; only what spans some way is new.
        if to > from + 1 {
            let run = Run {
                stations: piece.stations[from..to].to_vec(),
                closed: false,
                free: (piece.free.0 && from == 0, piece.free.1 && to == n),
                lead: (0.0, 0.0),
            };
            rest.extend(Piece::new(run, piece.straight, outline));
        }
        from = to + 1;
    }
    rest
}

/// Whether a station reads the same ink as a kept piece.
fn covers(kept: &Piece, s: &Station) -> bool {
    let c = s.centre();
    let slack = BESIDE * s.thickness.min(kept.thickness);
    let alike = |a: f64, b: f64| a < 1.45 * b && b < 1.45 * a;
    let on = |a: Point, b: Point| near_segment(c, a, b) <= slack;
    if kept.straight {
        return alike(s.thickness, kept.thickness)
            && s.along.dot(kept.direction).abs() > ALONG
            && on(kept.ends.0, kept.ends.1);
    }
    let wrap = kept
        .closed
        .then(|| (kept.stations.last(), kept.stations.first()));
    let mut pairs = kept
        .stations
        .windows(2)
        .map(|w| (&w[0], &w[1]))
        .chain(wrap.and_then(|(a, b)| Some((a?, b?))));
    // What is quickly told is asked first: this is where pieces are compared by
    // the thousand.
    pairs.any(|(a, b)| {
        alike(s.thickness, 0.5 * (a.thickness + b.thickness))
            && on(a.centre(), b.centre())
            && unit(a.along + b.along)
                .unwrap_or(a.along)
                .dot(s.along)
                .abs()
                > ALONG
    })
}

/// Distance of a point from a segment of line.
fn near_segment(p: Point, a: Point, b: Point) -> f64 {
    let (ab, ap) = (b - a, p - a);
    let (dot, square) = (ap.dot(ab), ab.hypot2());
    if dot <= 0.0 {
        ap.hypot()
    } else if dot >= square {
        (p - b).hypot()
    } else {
        ap.cross(ab).abs() / square.sqrt()
    }
}

/// Whether a piece lies between the outer edges of two strokes that meet, as
/// at the top of a narrow A: each of its edges is an edge of another, longer
/// stroke already found.
fn is_junction(piece: &Piece, kept: &[Piece]) -> bool {
    let Some(s) = piece.stations.get(piece.stations.len() / 2) else {
        return false;
    };
    let (near, far) = (s.near.segment, s.far.segment);
    let mut owners = [false; 2];
    for k in kept.iter().filter(|k| k.length > piece.length) {
        let owns = |segment| {
            k.stations
                .iter()
                .any(|s| s.near.segment == segment || s.far.segment == segment)
        };
        match (owns(near), owns(far)) {
            // The same stroke, further on.
            (true, true) => return false,
            (true, false) => owners[0] = true,
            (false, true) => owners[1] = true,
            (false, false) => {}
        }
    }
    owners == [true, true]
}
