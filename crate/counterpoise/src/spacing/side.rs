//! The two sides of a letter: how much white lies before and after it at each
//! level, and what kind of side each is. Font units, set upright by the font's
//! own slant.
//!
//! The kind is told from the edge that faces the neighbour, by its distance
//! behind the side's foremost place and by its direction at each level:
//!
//! | kind | rule |
//! |---|---|
//! | diagonal | half of the band or more faces along edges of one lean, 6 to 60 degrees off the upright |
//! | straight | half of the band or more faces along edges within 5 degrees of the upright, not deep |
//! | open | a quarter of the band or more is deep: further back than a fifth of the cap height, or without ink |
//! | round | the side comes forward to one place and falls back from it |
//! | stepped | all else: serifs, bowls one above another, terminals |
//!
//! A side that answers to several is of the first. The limits are common
//! practice, no source.

use super::grid::{Grid, LEVELS};
use crate::outline::{Outline, Ray};
use std::ops::Range;

/// Off the upright by less than this, degrees, an edge counts as upright.
const UPRIGHT: f64 = 5.0;

/// Between these, degrees off the upright, an edge may be a diagonal's.
const DIAGONAL: Range<f64> = 6.0..60.0;

/// The edges of a diagonal keep their lean within this, degrees.
const ONE_LEAN: f64 = 4.0;

/// Further behind the foremost place than this share of the cap height, white
/// belongs to the letter's inside as much as to its side.
const DEEP: f64 = 0.2;

/// Of the band, this share makes a straight or diagonal side.
const MOST: f64 = 0.5;

/// Of the band, this share makes an open side.
const OPENING: f64 = 0.25;

/// A side may fall back by this share of the cap height on its way forward and
/// still be round: the flat of a drawn curve wavers by less.
const WAVERING: f64 = 0.01;

/// What a side is like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SideKind {
    /// Upright, as both of H.
    Straight,
    /// Bowed outward, as both of O.
    Round,
    /// Leaning, as both of V.
    Diagonal,
    /// With a gap that lets white in, as the right of L.
    Open,
    /// In several pieces that reach out unequally, as the right of B.
    Stepped,
}

/// One side of a letter.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// What it is like.
    pub kind: SideKind,
    /// The side bearing: white from the letter's edge of space to its foremost ink.
    pub bearing: f64,
    /// White behind the foremost ink at each level, never negative; infinite
    /// where there is no ink.
    pub depth: Box<[f64; LEVELS]>,
}

impl Side {
    /// White from the edge of the letter's space to its ink at a level.
    pub fn white(&self, level: usize) -> f64 {
        self.bearing + self.depth[level]
    }
}

/// A letter between its sides.
#[derive(Debug, Clone, PartialEq)]
pub struct Sides {
    /// Advance width.
    pub advance: f64,
    /// The side that meets the letter before.
    pub left: Side,
    /// The side that meets the letter after.
    pub right: Side,
    /// The levels in which the eye takes its sides.
    pub band: Range<usize>,
    /// The levels that its ink reaches through.
    pub extent: Range<usize>,
}

/// Reads both sides; `None` of a shape without ink. `c` tells the band.
pub fn sides(outline: &Outline, advance: f64, c: Option<char>, grid: &Grid) -> Option<Sides> {
    let (foot, top) = outline.bounds().map(|b| (b.y0, b.y1))?;
    let extent = grid.levels(foot, top);
    let band = grid.band(c, foot, top);
    let faces = Faces::of(outline, grid, extent.clone());
    let (first, last) = foremost(outline, grid, &faces)?;
    let side = |bearing: f64, depths: Box<[f64; LEVELS]>, angles: &[f64; LEVELS]| Side {
        kind: kind(&depths, angles, band.clone(), grid),
        bearing,
        depth: depths,
    };
    let depths = |behind: &dyn Fn(usize) -> f64| {
        let mut all = Box::new([f64::INFINITY; LEVELS]);
        for level in extent.clone() {
            all[level] = behind(level).max(0.0);
        }
        all
    };
    let left = depths(&|level| faces.left[level] - first);
    let right = depths(&|level| last - faces.right[level]);
    Some(Sides {
        advance,
        left: side(first, left, &faces.left_angle),
        right: side(advance - last, right, &faces.right_angle),
        band,
        extent,
    })
}

/// First and last ink at each level, and how the edges there run.
struct Faces {
    left: [f64; LEVELS],
    right: [f64; LEVELS],
    /// Degrees off the upright, 0 to 90.
    left_angle: [f64; LEVELS],
    right_angle: [f64; LEVELS],
}

impl Faces {
    fn of(outline: &Outline, grid: &Grid, extent: Range<usize>) -> Self {
        let mut faces = Self {
            left: [f64::INFINITY; LEVELS],
            right: [f64::NEG_INFINITY; LEVELS],
            left_angle: [90.0; LEVELS],
            right_angle: [90.0; LEVELS],
        };
        let (mut crossings, mut spans) = (Vec::new(), Vec::new());
        for level in extent {
            let y = grid.y(level);
            outline.spans(&Ray::level(y), &mut crossings, &mut spans);
            let (Some(first), Some(last)) = (spans.first(), spans.last()) else {
                continue;
            };
            let angle = |c: &crate::outline::Crossing| {
                let along = outline.segments()[c.segment].tangent(c.t);
                let across = along.x - grid.lean * along.y;
                across.abs().atan2(along.y.abs()).to_degrees()
            };
            faces.left[level] = grid.upright(first.from.s, y);
            faces.right[level] = grid.upright(last.to.s, y);
            faces.left_angle[level] = angle(&first.from);
            faces.right_angle[level] = angle(&last.to);
        }
        faces
    }
}

/// The foremost places left and right once the letter stands upright: of the
/// outline itself, or of its levels where it is slanted.
fn foremost(outline: &Outline, grid: &Grid, faces: &Faces) -> Option<(f64, f64)> {
    if grid.lean == 0.0 {
        return outline.bounds().map(|b| (b.x0, b.x1));
    }
    let first = faces.left.iter().copied().fold(f64::INFINITY, f64::min);
    let last = faces
        .right
        .iter()
        .copied()
        .fold(f64::NEG_INFINITY, f64::max);
    (first.is_finite() && last.is_finite()).then_some((first, last))
}

fn kind(depth: &[f64; LEVELS], angle: &[f64; LEVELS], band: Range<usize>, grid: &Grid) -> SideKind {
    if band.is_empty() {
        return SideKind::Stepped;
    }
    let share = |count: usize| count as f64 / band.len() as f64;
    let deep = |level: usize| depth[level] > DEEP * grid.height;
    let mut leans: Vec<f64> = band
        .clone()
        .filter(|&l| depth[l].is_finite() && DIAGONAL.contains(&angle[l]))
        .map(|l| angle[l])
        .collect();
    let middle = crate::measure::median(&mut leans);
    let alike = leans
        .iter()
        .filter(|&&a| (a - middle).abs() <= ONE_LEAN)
        .count();
    if share(alike) >= MOST {
        return SideKind::Diagonal;
    }
    let upright = band
        .clone()
        .filter(|&l| !deep(l) && angle[l] <= UPRIGHT)
        .count();
    if share(upright) >= MOST {
        return SideKind::Straight;
    }
    if share(band.clone().filter(|&l| deep(l)).count()) >= OPENING {
        return SideKind::Open;
    }
    if comes_forward_once(&depth[band.clone()], WAVERING * grid.height) {
        SideKind::Round
    } else {
        SideKind::Stepped
    }
}

/// Whether a side falls back both ways from its foremost level, but for a waver.
fn comes_forward_once(depth: &[f64], waver: f64) -> bool {
    let foremost = (0..depth.len()).min_by(|&a, &b| depth[a].total_cmp(&depth[b]));
    foremost.is_some_and(|at| {
        falls_back(depth[at..].iter(), waver) && falls_back(depth[..=at].iter().rev(), waver)
    })
}

fn falls_back<'a>(mut levels: impl Iterator<Item = &'a f64>, waver: f64) -> bool {
    let mut deepest = 0.0_f64;
    levels.all(|&d| {
        deepest = deepest.max(d);
        d >= deepest - waver
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Affine, BezPath, Circle, Rect, Shape};

    const GRID: Grid = Grid {
        height: 640.0,
        x_height: 480.0,
        lean: 0.0,
    };

    fn read(path: &BezPath, advance: f64, c: char) -> Sides {
        sides(&Outline::from_path(path), advance, Some(c), &GRID).unwrap()
    }

    fn polygon(points: &[(f64, f64)]) -> BezPath {
        let mut p = BezPath::new();
        p.move_to(points[0]);
        for &q in &points[1..] {
            p.line_to(q);
        }
        p.close_path();
        p
    }

    #[test]
    fn a_stem_is_straight_and_has_no_depth() {
        let s = read(&Rect::new(60.0, 0.0, 150.0, 640.0).to_path(0.1), 200.0, 'I');
        assert_eq!(
            (s.left.kind, s.right.kind),
            (SideKind::Straight, SideKind::Straight)
        );
        assert_eq!(
            (s.left.bearing, s.right.bearing, s.advance),
            (60.0, 50.0, 200.0)
        );
        assert!(s.band.clone().all(|l| s.left.depth[l] == 0.0));
        assert_eq!(s.left.white(s.band.start), 60.0);
        assert_eq!(s.extent, s.band);
    }

    #[test]
    fn a_disc_is_round_and_as_deep_as_its_equation_says() {
        let s = read(
            &Circle::new((320.0, 320.0), 320.0).to_path(1e-6),
            640.0,
            'O',
        );
        assert_eq!(
            (s.left.kind, s.right.kind),
            (SideKind::Round, SideKind::Round)
        );
        for level in s.band.clone() {
            let y = GRID.y(level) - 320.0;
            let depth = 320.0 - (320.0_f64.powi(2) - y * y).sqrt();
            assert!((s.right.depth[level] - depth).abs() < 0.1);
        }
    }

    #[test]
    fn a_wedge_is_diagonal_and_an_angle_is_open() {
        let v = polygon(&[(0.0, 640.0), (250.0, 0.0), (350.0, 0.0), (600.0, 640.0)]);
        let s = read(&v, 600.0, 'V');
        assert_eq!(
            (s.left.kind, s.right.kind),
            (SideKind::Diagonal, SideKind::Diagonal)
        );
        let l = polygon(&[
            (50.0, 0.0),
            (450.0, 0.0),
            (450.0, 80.0),
            (140.0, 80.0),
            (140.0, 640.0),
            (50.0, 640.0),
        ]);
        let s = read(&l, 500.0, 'L');
        assert_eq!(
            (s.left.kind, s.right.kind),
            (SideKind::Straight, SideKind::Open)
        );
        assert_eq!(s.right.depth[s.band.end - 1], 310.0);
    }

    #[test]
    fn two_bowls_are_a_step() {
        let mut p = Circle::new((100.0, 160.0), 165.0).to_path(1e-6);
        p.extend(Circle::new((60.0, 480.0), 165.0).to_path(1e-6));
        assert_eq!(read(&p, 300.0, 'B').right.kind, SideKind::Stepped);
    }

    #[test]
    fn a_slanted_stem_is_read_as_its_upright() {
        let lean = 12.0_f64.to_radians().tan();
        let grid = Grid { lean, ..GRID };
        let shear = Affine::new([1.0, 0.0, lean, 1.0, -0.5 * lean * 640.0, 0.0]);
        let path = shear * Rect::new(60.0, 0.0, 150.0, 640.0).to_path(0.1);
        let s = sides(&Outline::from_path(&path), 200.0, Some('I'), &grid).unwrap();
        assert_eq!(s.left.kind, SideKind::Straight);
        assert!((s.left.bearing - 60.0).abs() < 1e-9 && (s.right.bearing - 50.0).abs() < 1e-9);
    }

    #[test]
    fn where_there_is_no_ink_the_white_has_no_end() {
        let s = read(&Rect::new(0.0, 0.0, 90.0, 480.0).to_path(0.1), 100.0, 'i');
        assert!(s.left.depth[s.extent.end].is_infinite());
        assert!(sides(&Outline::default(), 100.0, None, &GRID).is_none());
    }
}
