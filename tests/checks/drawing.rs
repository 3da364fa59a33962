//! Drawing: how many points the letters of open fonts need, told of outlines
//! whose excess is known because it was added here; and flaws, against what
//! areas say.
//!
//! A trace is made of a font's own letters: every line and curve cut into parts,
//! or the outline cut anew wherever the way along it says, on rounded
//! coordinates. What it is drawn with beyond what the letters themselves need is
//! its true excess.

use crate::{Fonts, open};
use counterpoise::font::{Font, GlyphId, OutlineFormat};
use counterpoise::measure::drawing::{
    Drawing, DrawingContext, FlawKind, Need, Points, Tolerance, drawing, refit, traced,
};
use counterpoise::outline::Outline;
use counterpoise_checks::manifest::{Face, Use};
use kurbo::{BezPath, ParamCurve, ParamCurveNearest, PathEl, PathSeg, Shape};
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// A trace's excess is told within this share of the true one: within two units
/// always, within half a unit where its pieces are long beside the rounding of
/// their coordinates. Of pieces of few units, as parts of serifs and hatching
/// are, half a unit asks for points that tell of the rounding alone.
const SHARE: f64 = 0.1;

/// Pieces this long on average (of the em) are long beside rounding.
const LONG: f64 = 0.012;

/// A face that is known for its drawing needs no more than this share less than
/// it has.
const WELL_DRAWN: f64 = 0.05;
const KNOWN_FOR_IT: &str = "sourcesans";

/// A refit's distance is looked up at samples; between them, on the tight curves
/// of serifs, it may be greater by this share.
const BETWEEN: f64 = 0.5;

/// Areas agree to this share of the letter's box.
const AREA: f64 = 1e-4;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let mut all = fonts.each("drawing::excess of traces", Use::Glyphs, traces)?;
    all.extend(fonts.each("drawing::refit", Use::Glyphs, refits)?);
    all.extend(fonts.each("drawing::flaws and areas", Use::Glyphs, flaws)?);
    Ok(all)
}

struct Letters {
    context: DrawingContext,
    letters: Vec<Outline>,
}

/// The basic letters and figures that a font has.
fn letters(face: &Face) -> Result<Letters, Failed> {
    let font = open(face)?;
    let reader = font.reader();
    let letters = ('A'..='Z')
        .chain('a'..='z')
        .chain('0'..='9')
        .filter_map(|c| reader.glyph(c))
        .map(|g| reader.outline(g))
        .collect::<Result<Vec<_>, _>>()
        .map_err(|e| format!("{}: {e}", face.id))?;
    Ok(Letters {
        context: context(&font),
        letters,
    })
}

fn context(font: &Font) -> DrawingContext {
    DrawingContext {
        units_per_em: f64::from(font.units_per_em()),
        format: Some(font.format()),
    }
}

/// Points of many letters: as drawn, and needed within half a unit and two.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    drawn: f64,
    needed: [f64; 2],
}

impl Sum {
    fn of<'a>(
        outlines: impl Iterator<Item = &'a Outline>,
        context: &DrawingContext,
        pick: fn(&Need) -> usize,
    ) -> Self {
        outlines.fold(Self::default(), |sum, o| {
            let d = drawing(o, context);
            Self {
                drawn: sum.drawn + d.points.total() as f64,
                needed: [
                    sum.needed[0] + pick(&d.within_half) as f64,
                    sum.needed[1] + pick(&d.within_two) as f64,
                ],
            }
        })
    }
}

fn traces(face: &Face) -> Result<(), Failed> {
    let Letters { context, letters } = letters(face)?;
    let unit = context.units_per_em / 1000.0;
    let own = Sum::of(letters.iter(), &context, |n| n.quadratic.unwrap_or(n.cubic));
    let excess = own.needed.map(|n| (own.drawn - n) / own.drawn);
    println!(
        "{:16} {:6} drawn, excess {:5.1} % within half a unit, {:5.1} % within two",
        face.id,
        own.drawn,
        100.0 * excess[0],
        100.0 * excess[1]
    );
    if face.id == KNOWN_FOR_IT && excess.iter().any(|e| *e > WELL_DRAWN) {
        return Err(format!("{} is well drawn, yet {excess:?} too much", face.id).into());
    }
    let cut = |count: u32| {
        let parts = letters.iter().map(|o| cut(&o.to_bez_path(), count));
        parts.map(|p| Outline::from_path(&p)).collect::<Vec<_>>()
    };
    let anew = |spacing: f64| {
        let traces = letters.iter().map(|o| traced(o, &context, spacing * unit));
        traces.map(|p| Outline::from_path(&p)).collect::<Vec<_>>()
    };
    let cubic = Sum::of(letters.iter(), &context, |n| n.cubic);
    // Points set further apart than the letters' own pieces are long draw other
    // letters, whose need nobody knows: hatching, cut every 40 units. Such rows
    // are printed and not judged.
    let own_piece = piece(&letters) / unit;
    // Parts keep their kind of curve; what is cut anew is cubic.
    let rows = [
        ("cut in 3", cut(3), own, true),
        ("cut in 5", cut(5), own, true),
        ("anew every 20", anew(20.0), cubic, own_piece >= 20.0),
        ("anew every 40", anew(40.0), cubic, own_piece >= 40.0),
    ];
    let mut wrong = Vec::new();
    for (what, trace, letters, judged) in rows {
        let piece = piece(&trace);
        let sum = Sum::of(trace.iter(), &context, |n| n.quadratic.unwrap_or(n.cubic));
        let mut row = format!(
            "{:16} {what:14} {:6} drawn in pieces of {:4.1}",
            face.id,
            sum.drawn,
            piece / unit
        );
        for k in [0, 1] {
            let truth = sum.drawn - letters.needed[k];
            let told = sum.drawn - sum.needed[k];
            let off = told / truth - 1.0;
            row += &format!("   {told:6} told of {truth:6} ({:+5.1} %)", 100.0 * off);
            if judged && off.abs() > SHARE && (k == 1 || piece >= LONG * context.units_per_em) {
                wrong.push(format!("{what}: {told} told of {truth}"));
            }
        }
        println!("{row}");
    }
    if wrong.is_empty() {
        Ok(())
    } else {
        Err(format!("{}: {}", face.id, wrong.join("; ")).into())
    }
}

/// The average length of lines and curves.
fn piece(outlines: &[Outline]) -> f64 {
    let all = || outlines.iter().flat_map(Outline::segments);
    all().map(|s| s.length()).sum::<f64>() / all().count().max(1) as f64
}

/// Each line and curve cut into parts on rounded coordinates.
fn cut(path: &BezPath, count: u32) -> BezPath {
    let mut out = BezPath::new();
    for (i, el) in path.elements().iter().enumerate() {
        match *el {
            PathEl::MoveTo(p) => out.move_to(p.round()),
            PathEl::ClosePath => out.close_path(),
            _ => {
                for k in 0..count {
                    let share = |k: u32| f64::from(k) / f64::from(count);
                    let Some(seg) = path.get_seg(i) else { continue };
                    match seg.subsegment(share(k)..share(k + 1)) {
                        PathSeg::Line(l) => out.line_to(l.p1.round()),
                        PathSeg::Quad(q) => out.quad_to(q.p1.round(), q.p2.round()),
                        PathSeg::Cubic(c) => out.curve_to(c.p1.round(), c.p2.round(), c.p3.round()),
                    }
                }
            }
        }
    }
    out
}

fn refits(face: &Face) -> Result<(), Failed> {
    let Letters { context, letters } = letters(face)?;
    let mut worst = [0.0_f64; 2];
    for letter in &letters {
        let d = drawing(letter, &context);
        let needs = [
            (Tolerance::Half, d.within_half),
            (Tolerance::Two, d.within_two),
        ];
        for ((tolerance, need), worst) in needs.into_iter().zip(&mut worst) {
            let refit = refit(letter, &context, tolerance);
            let points = Points::of(&Outline::from_path(&refit)).total();
            if points != need.cubic {
                return Err(format!("{} points drawn of {} needed", points, need.cubic).into());
            }
            let drawn = letter.to_bez_path();
            let off = distance(&drawn, &refit).max(distance(&refit, &drawn));
            *worst = worst.max(off / tolerance.units(context.units_per_em));
        }
    }
    println!(
        "{}: refits stray by {:.2} of half a unit, {:.2} of two",
        face.id, worst[0], worst[1]
    );
    if worst.iter().any(|w| *w > 1.0 + BETWEEN) {
        return Err(format!("{}: a refit strays by {worst:?} tolerances", face.id).into());
    }
    Ok(())
}

/// How far the first path strays from the second.
fn distance(a: &BezPath, b: &BezPath) -> f64 {
    let near: Vec<_> = b.segments().map(|s| (s.bounding_box(), s)).collect();
    let mut most = 0.0_f64;
    for p in a
        .segments()
        .flat_map(|s| (0..12).map(move |k| s.eval(f64::from(k) / 12.0)))
    {
        let mut least = f64::MAX;
        for (bounds, seg) in &near {
            let aside = (bounds.x0 - p.x).max(p.x - bounds.x1);
            let above = (bounds.y0 - p.y).max(p.y - bounds.y1);
            let at_least = aside.max(above).max(0.0);
            if at_least * at_least < least {
                least = least.min(seg.nearest(p, 1e-4).distance_sq);
            }
        }
        most = most.max(least.sqrt());
    }
    most
}

/// What areas can tell: where no flaw of overlap or direction is told, Green's
/// theorem and the ink on level lines must agree, and the letter runs its
/// format's way.
fn flaws(face: &Face) -> Result<(), Failed> {
    let font = open(face)?;
    let (reader, context) = (font.reader(), context(&font));
    let sign = match font.format() {
        OutlineFormat::TrueType => -1.0,
        _ => 1.0,
    };
    let (mut sound, mut told) = (0, 0);
    for id in 0..font.glyph_count() {
        let outline = reader
            .outline(GlyphId(id))
            .map_err(|e| format!("{} glyph {id}: {e}", face.id))?;
        let Some(bounds) = outline.bounds() else {
            continue;
        };
        let d = drawing(&outline, &context);
        if !d.not_looked_for.is_empty() || d.flaws_left_out > 0 {
            return Err(format!("{} glyph {id}: {:?}", face.id, d.not_looked_for).into());
        }
        if is_told(&d) {
            told += 1;
            continue;
        }
        sound += 1;
        let (signed, ink) = (sign * outline.signed_area(), outline.ink_area());
        if (signed - ink).abs() > AREA * bounds.area() + 1.0 {
            return Err(format!(
                "{} glyph {id}: nothing told, yet areas are {signed} and {ink}",
                face.id
            )
            .into());
        }
    }
    println!(
        "{}: {sound} glyphs without, {told} with such a flaw",
        face.id
    );
    Ok(())
}

fn is_told(d: &Drawing) -> bool {
    let kinds = [
        FlawKind::Overlap,
        FlawKind::SelfCrossing,
        FlawKind::WrongWay,
        FlawKind::NothingInside,
    ];
    d.flaws.iter().any(|f| kinds.contains(&f.kind))
}
