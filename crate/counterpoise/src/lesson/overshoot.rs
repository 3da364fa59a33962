//! Round and pointed ends set on the line of the flat ones, or twice as far
//! beyond it. The strokes at top and foot move whole; what is between gives way.

use super::{Class, Done, Drawn, Figure, Nothing, upright};
use crate::measure::{End, Extremity, Form};
use crate::redraw::{Unable, reach};
use kurbo::Point;

/// Reaching moves the ends exactly, but for joints that are brought back into line
/// behind it; what that leaves is taken up in so many rounds.
const ROUNDS: usize = 3;

pub(super) fn take_out(drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    let (top, foot) = (
        passes(drawn, class, End::Top),
        passes(drawn, class, End::Foot),
    );
    if top.is_none() && foot.is_none() {
        return Err(Nothing::Without);
    }
    let to = |own: Option<f64>| own.map(|own| own * (1.0 - out));
    set(drawn, class, to(top), to(foot))
}

/// How far a round or pointed end passes the line; `None` of a flat one, and of
/// one that no line applies to.
pub(super) fn passes(drawn: &Drawn, class: &Class, end: End) -> Option<f64> {
    let extremity = of(drawn, end)?;
    if extremity.form == Form::Flat {
        return None;
    }
    class.context().overshoot(drawn.character, end, &extremity)
}

fn of(drawn: &Drawn, end: End) -> Option<Extremity> {
    match end {
        End::Top => drawn.letter.top,
        End::Foot => drawn.letter.foot,
    }
}

/// Brings the ends so far beyond their lines; `None` leaves one where it is.
pub(super) fn set(
    drawn: &Drawn,
    class: &Class,
    top: Option<f64>,
    foot: Option<f64>,
) -> Result<Done, Nothing> {
    let now = drawn.outline.bounds().ok_or(Unable::NoInk)?;
    let own = |end| passes(drawn, class, end);
    // Where the ends are to come, up and down.
    let to_top = now.y1 + top.zip(own(End::Top)).map_or(0.0, |(to, own)| to - own);
    let to_foot = now.y0 - foot.zip(own(End::Foot)).map_or(0.0, |(to, own)| to - own);
    let mut outline = drawn.outline.clone();
    for _ in 0..ROUNDS {
        let b = outline.bounds().ok_or(Unable::NoInk)?;
        let (up, down) = (to_top - b.y1, b.y0 - to_foot);
        if up.abs() < 1e-6 && down.abs() < 1e-6 {
            break;
        }
        outline = upright(&outline, class.lean(), |o| reach(o, up, down))?;
    }
    let b = outline.bounds().ok_or(Unable::NoInk)?;
    let height = class.flat_top(drawn.character).unwrap_or(now.y1) - class.baseline();
    let mut done = Done {
        outline,
        figures: Vec::new(),
        was: Vec::new(),
        is: Vec::new(),
    };
    for (name, share, end, moved) in [
        (
            "above the line",
            "above the line, of the height",
            End::Top,
            b.y1 - now.y1,
        ),
        (
            "below the line",
            "below the line, of the height",
            End::Foot,
            now.y0 - b.y0,
        ),
    ] {
        let (Some(own), Some(e)) = (own(end), of(drawn, end)) else {
            continue;
        };
        done.figures.push(Figure::units(name, own, own + moved));
        if height > 0.0 {
            let percent = |v: f64| 100.0 * v / height;
            done.figures
                .push(Figure::percent(share, percent(own), percent(own + moved)));
        }
        let out = if end == End::Top { 1.0 } else { -1.0 };
        let line = e.y - out * own;
        done.was.push((Point::new(e.x, line), Point::new(e.x, e.y)));
        done.is
            .push((Point::new(e.x, line), Point::new(e.x, e.y + out * moved)));
    }
    Ok(done)
}
