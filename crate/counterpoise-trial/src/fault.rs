//! The faults that are planted, one letter at a time.

use counterpoise::judge::{Cause, scale};
use counterpoise::measure::strokes::{StrokeKind, Thickness};
use counterpoise::measure::{self, Context, End, Form, Letter, main_weight};
use counterpoise::outline::Outline;
use counterpoise::redraw::{Warp, embolden};
use kurbo::Affine;

/// What is done to a letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum Fault {
    /// Its ink is made wider, stems kept.
    Width,
    /// Its strokes are made thicker, its size kept.
    Strokes,
    /// Its upright strokes alone are made thicker, its size kept.
    Uprights,
    /// Its level strokes alone are made thicker, its size kept.
    Levels,
    /// How much of its overshoot is added: -1 takes it away.
    Overshoot,
    /// Its left bearing is enlarged.
    LeftBearing,
    /// Its right bearing is enlarged.
    RightBearing,
    /// The last of its stems is made thicker, its width kept.
    Pair,
    /// It is raised, by a share of the cap height.
    Raised,
}

impl Fault {
    /// The cause that it should be found by.
    pub(crate) fn cause(self) -> Cause {
        match self {
            Self::Width => Cause::Width,
            Self::Strokes => Cause::Strokes,
            Self::Uprights => Cause::Uprights,
            Self::Levels => Cause::Levels,
            Self::Overshoot => Cause::Overshoot,
            Self::LeftBearing => Cause::Left,
            Self::RightBearing => Cause::Right,
            Self::Pair => Cause::Pair,
            Self::Raised => Cause::Raised,
        }
    }
}

/// Every fault with its sizes: shares of what is changed.
pub(crate) const FAULTS: &[(Fault, &[f64])] = &[
    (Fault::Width, &[-0.08, 0.08, -0.12, 0.12, -0.20, 0.20]),
    (Fault::Strokes, &[-0.08, 0.08]),
    (Fault::Uprights, &[-0.08, 0.08]),
    (Fault::Levels, &[-0.08, 0.08]),
    (Fault::Overshoot, &[-1.0, 1.0]),
    (Fault::LeftBearing, &[-0.15, 0.15]),
    (Fault::RightBearing, &[-0.15, 0.15]),
    (Fault::Pair, &[-0.06, 0.06]),
    (Fault::Raised, &[-0.01, 0.01]),
];

/// A letter with a fault.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Faulty {
    /// Its outline.
    pub(crate) outline: Outline,
    /// Its advance width.
    pub(crate) advance: f64,
}

/// Plants a fault; `None` where a letter has nothing that it could be planted
/// in: no overshoot, no pair of stems, no width but its stems'.
pub(crate) fn plant(
    fault: Fault,
    size: f64,
    c: char,
    outline: &Outline,
    letter: &Letter,
    context: &Context,
) -> Option<Faulty> {
    let same = |outline| Faulty {
        outline,
        advance: letter.advance,
    };
    match fault {
        Fault::Width => widen(outline, letter, context, size),
        Fault::Strokes => thicken(outline, letter, context, size, (1.0, 1.0)).map(same),
        Fault::Uprights => thicken(outline, letter, context, size, (1.0, 0.0)).map(same),
        Fault::Levels => thicken(outline, letter, context, size, (0.0, 1.0)).map(same),
        Fault::Overshoot => overshoot(c, outline, letter, context, size).map(same),
        Fault::LeftBearing => {
            let by = size * bearing(letter.left_bearing()?, context)?;
            Some(Faulty {
                outline: outline.transformed(Affine::translate((by, 0.0))),
                advance: letter.advance + by,
            })
        }
        Fault::RightBearing => {
            let by = size * bearing(letter.right_bearing()?, context)?;
            Some(Faulty {
                outline: outline.clone(),
                advance: letter.advance + by,
            })
        }
        Fault::Pair => unequal(outline, letter, context, size).map(same),
        Fault::Raised => {
            let by = size * scale(context);
            Some(same(outline.transformed(Affine::translate((0.0, by)))))
        }
    }
}

/// A bearing under this share of the cap height is no white to change: 15% of it
/// would be less than half of one part in a hundred of the letter's height.
fn bearing(value: f64, context: &Context) -> Option<f64> {
    (value > 0.033 * scale(context)).then_some(value)
}

/// Of a letter's width, at least this share must be other than stems.
const LEAST_FREE: f64 = 0.25;

/// Places across a letter that its upright strokes take, once it stands upright.
fn uprights(letter: &Letter, lean: f64) -> Vec<(f64, f64)> {
    letter
        .strokes
        .iter()
        .filter(|s| matches!(s.kind, StrokeKind::Stem | StrokeKind::Curve))
        .flat_map(|s| &s.marks)
        .filter(|m| m.runs_upright(lean))
        .map(|m| across(m, lean))
        .collect()
}

/// From where to where a mark reaches, once the letter stands upright.
fn across(m: &Thickness, lean: f64) -> (f64, f64) {
    let (a, b) = (m.from.x - m.from.y * lean, m.to.x - m.to.y * lean);
    (a.min(b), a.max(b))
}

fn shear(lean: f64) -> Affine {
    Affine::new([1.0, 0.0, lean, 1.0, 0.0, 0.0])
}

fn widen(outline: &Outline, letter: &Letter, context: &Context, size: f64) -> Option<Faulty> {
    let lean = context.slant.to_radians().tan();
    let upright = outline.transformed(shear(-lean));
    let b = upright.bounds()?;
    let target = b.width() * (1.0 + size);
    let kept = uprights(letter, lean);
    let warp = Warp::keeping(b.x0, b.x1, &kept, target, LEAST_FREE)?;
    let mut wide = warp.across(&upright);
    // Strokes that lean are thinned or thickened with the rest: mend them.
    if let Some(before) = main_weight(&letter.strokes) {
        for _ in 0..2 {
            let now = measure::of_outline(&wide.transformed(shear(lean)), letter.advance, context);
            let off = before - main_weight(&now.strokes)?;
            if off.abs() < 0.003 * before || off.abs() > 0.2 * before {
                break;
            }
            wide = to_width(&embolden(&wide, 0.5 * off, 0.0), b.x0, target)?;
        }
    }
    Some(Faulty {
        outline: wide.transformed(shear(lean)),
        advance: letter.advance + size * b.width(),
    })
}

fn to_width(outline: &Outline, x0: f64, width: f64) -> Option<Outline> {
    let b = outline.bounds()?;
    let by = width / b.width();
    Some(outline.transformed(Affine::new([by, 0.0, 0.0, 1.0, x0 - by * b.x0, 0.0])))
}

/// Thickens strokes by `size`, times `which` for upright and level ones.
fn thicken(
    outline: &Outline,
    letter: &Letter,
    context: &Context,
    size: f64,
    which: (f64, f64),
) -> Option<Outline> {
    /// Level strokes are those whose marks stand at least this steeply.
    const STEEP: f64 = 2.0;
    let lean = context.slant.to_radians().tan();
    let stem = main_weight(&letter.strokes)?;
    let level = |letter: &Letter| {
        letter
            .strokes
            .iter()
            .filter(|s| s.kind != StrokeKind::Stem)
            .flat_map(|s| &s.marks)
            .filter(|m| (m.to - m.from).y.abs() > STEEP * (m.to - m.from).x.abs())
            .map(|m| m.value)
            .reduce(f64::min)
    };
    let bar = level(letter);
    // Without a level stroke there is none to be thickened alone.
    if which.0 == 0.0 {
        bar?;
    }
    let thin = bar.unwrap_or(stem).min(stem);
    let upright = outline.transformed(shear(-lean));
    let b = upright.bounds()?;
    // A letter that is all stem, as I, grows with its stem.
    let grows = Warp::keeping(
        b.x0,
        b.x1,
        &uprights(letter, lean),
        2.0 * b.width(),
        LEAST_FREE,
    )
    .is_none();
    let mut by = size;
    // Bringing the letter back to its size takes a little of the change away:
    // give that much more.
    for _ in 0..3 {
        let thick = embolden(
            &upright,
            0.5 * by * stem * which.0,
            0.5 * by * thin * which.1,
        );
        let now = thick.bounds()?;
        let sx = if grows { 1.0 } else { b.width() / now.width() };
        let sy = b.height() / now.height();
        let middle = |r: kurbo::Rect| 0.5 * (r.x0 + r.x1);
        let sized = thick
            .transformed(Affine::new([
                sx,
                0.0,
                0.0,
                sy,
                middle(b) - sx * middle(now),
                b.y0 - sy * now.y0,
            ]))
            .transformed(shear(lean));
        let measured = measure::of_outline(&sized, letter.advance, context);
        let reached = if which.0 > 0.0 {
            main_weight(&measured.strokes)? / stem - 1.0
        } else {
            level(&measured)? / bar? - 1.0
        };
        if (reached - size).abs() < 0.05 * size.abs() {
            return Some(sized);
        }
        if reached / size < 0.3 {
            return None;
        }
        by *= size / reached;
    }
    None
}

/// An overshoot under this share of the cap height cannot be told from drawing flat.
const LEAST_OVERSHOOT: f64 = 0.006;

fn overshoot(
    c: char,
    outline: &Outline,
    letter: &Letter,
    context: &Context,
    size: f64,
) -> Option<Outline> {
    let b = outline.bounds()?;
    let least = LEAST_OVERSHOOT * scale(context);
    let of = |end, e: Option<measure::Extremity>| -> f64 {
        e.filter(|e| e.form == Form::Round)
            .and_then(|e| context.overshoot(c, end, &e))
            .filter(|&o| o >= least && o < 0.06 * scale(context))
            .unwrap_or(0.0)
    };
    let (top, foot) = (of(End::Top, letter.top), of(End::Foot, letter.foot));
    if top == 0.0 && foot == 0.0 {
        return None;
    }
    // The strokes at top and foot move whole; what is between gives way.
    let zone = 0.25 * b.height();
    let warp = Warp::new(vec![
        (b.y0, b.y0 - size * foot),
        (b.y0 + zone, b.y0 + zone - size * foot),
        (b.y1 - zone, b.y1 - zone + size * top),
        (b.y1, b.y1 + size * top),
    ]);
    Some(warp.along(outline))
}

fn unequal(outline: &Outline, letter: &Letter, context: &Context, size: f64) -> Option<Outline> {
    let lean = context.slant.to_radians().tan();
    let upright = outline.transformed(shear(-lean));
    let b = upright.bounds()?;
    let tallest = letter
        .strokes
        .iter()
        .filter(|s| s.kind == StrokeKind::Stem)
        .map(|s| s.length)
        .reduce(f64::max)?;
    let mut stems: Vec<(f64, f64)> = letter
        .strokes
        .iter()
        .filter(|s| s.kind == StrokeKind::Stem && s.length >= 0.6 * tallest)
        .filter_map(|s| s.marks.first())
        .map(|m| across(m, lean))
        .collect();
    stems.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let (first, last) = (stems.first()?, stems.last()?);
    let by = size * (last.1 - last.0);
    // Room between the stems for the last one's inner edge to move in.
    if stems.len() < 2 || last.0 - first.1 < 3.0 * by.abs() {
        return None;
    }
    let warp = Warp::new(vec![
        (b.x0, b.x0),
        (first.1, first.1),
        (last.0, last.0 - by),
        (last.1, last.1),
        (b.x1, b.x1),
    ]);
    Some(warp.across(&upright).transformed(shear(lean)))
}
