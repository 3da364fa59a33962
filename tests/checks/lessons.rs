//! What the lessons take out is out: read off the outlines by rays and boxes, and
//! not by what the lessons say of themselves.

use crate::{Fonts, face, open};
use counterpoise::lesson::{
    Class, Done, Drawn, Lesson, LineMatter, Matter, Nothing, place, take_out,
};
use counterpoise::measure::{End, GuideKind, main_weight, of_outline};
use counterpoise::outline::{Ink, Outline, Ray};
use counterpoise_checks::manifest::Face;
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// Two sans in curves of either kind, a serif and a slab; and decorative and
/// calligraphic faces, on which some letters cannot be computed and what is
/// computed must be as right.
const FACES: [(&str, bool); 8] = [
    ("dejavu", true),
    ("sourcesans", true),
    ("ebgaramond", true),
    ("roboto-slab", true),
    ("murmure", false),
    ("cabinsketch", false),
    ("isabella", false),
    ("dancingscript", false),
];

/// Ends come onto their lines within this, font units.
const ON_THE_LINE: f64 = 0.1;

/// Stems keep their thickness within this share, and come to another within it.
const STEM: f64 = 0.01;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let mut all = Vec::new();
    for (id, plain) in FACES {
        let face = face(id)?;
        for lesson in Lesson::ALL {
            all.push(fonts.check(
                format!("lessons::{lesson:?}::{id}"),
                vec![face.clone()],
                move |faces| faces.iter().try_for_each(|f| taught(f, lesson, plain)),
            ));
        }
        all.push(fonts.check(
            format!("lessons::questions::{id}"),
            vec![face],
            move |faces| faces.iter().try_for_each(|f| asked(f, plain)),
        ));
    }
    Ok(all)
}

fn taught(face: &Face, lesson: Lesson, plain: bool) -> Result<(), Failed> {
    let class = Class::new(open(face)?);
    if lesson.is_of_line() {
        return on_a_line(&class, lesson);
    }
    let (mut done, mut without) = (String::new(), String::new());
    let (mut unable, mut wrong) = (Vec::new(), Vec::new());
    for c in lesson.letters().chars() {
        let Some(drawn) = class.drawn(c) else {
            continue;
        };
        match take_out(lesson, &drawn, &class, 1.0) {
            Ok(out) => {
                if let Err(e) = held(lesson, &class, &drawn, &out) {
                    wrong.push(format!("{c}: {}", e.message().unwrap_or_default()));
                    continue;
                }
                let as_drawn = take_out(lesson, &drawn, &class, 0.0);
                let as_drawn = as_drawn.map_err(|e| format!("{c} as drawn: {e:?}"))?;
                let off = farthest(&drawn.outline, &as_drawn.outline);
                if off > 0.01 {
                    return Err(format!("{c}: as drawn it is off by {off:.3} units").into());
                }
                done.push(c);
            }
            Err(Nothing::Without) => without.push(c),
            Err(e) => unable.push(format!("{c} {e:?}")),
        }
    }
    println!(
        "{lesson:?} in {}: {done}; drawn without: {without}; {unable:?}",
        face.id
    );
    if !wrong.is_empty() {
        return Err(wrong.join("; ").into());
    }
    // What is taught stands on letters that can be shown.
    if plain && done.is_empty() && without.is_empty() {
        return Err("no letter could be computed".into());
    }
    Ok(())
}

fn held(lesson: Lesson, class: &Class, drawn: &Drawn, out: &Done) -> Result<(), Failed> {
    let context = class.context();
    let (was, is) = (bounds(&drawn.outline)?, bounds(&out.outline)?);
    let after = of_outline(&out.outline, drawn.letter.advance, context);
    match lesson {
        Lesson::Overshoot => {
            for (end, now) in [(End::Top, is.y1), (End::Foot, is.y0)] {
                let line = GuideKind::of(drawn.character, end).and_then(|k| context.drawn(k));
                let extremity = match end {
                    End::Top => drawn.letter.top,
                    End::Foot => drawn.letter.foot,
                };
                let flat = extremity.is_some_and(|e| e.form == counterpoise::measure::Form::Flat);
                if let Some(line) = line.filter(|_| !flat) {
                    near("end", now, line, ON_THE_LINE)?;
                }
            }
            // At half height, where rounds have their thick sides.
            let y = |b: kurbo::Rect| 0.5 * (b.y0 + b.y1);
            let level = |o: &Outline, b| spans(o, &Ray::level(y(b)));
            if "Oo".contains(drawn.character) {
                let (a, b) = (level(&drawn.outline, was), level(&out.outline, is));
                for (a, b) in a.iter().zip(&b) {
                    near("side", b.1 - b.0, a.1 - a.0, STEM * (a.1 - a.0))?;
                }
                same_count(a.len(), b.len())?;
            }
        }
        Lesson::Bars => {
            let stem = out.figures[0].drawn;
            for (from, to) in &out.is {
                let ink = through(&out.outline, &Ray::upright(from.x), 0.5 * (from.y + to.y))?;
                near("bar", ink, stem, STEM * stem)?;
            }
            near("top", is.y1, was.y1, ON_THE_LINE)?;
            near("foot", is.y0, was.y0, ON_THE_LINE)?;
            // The stem itself: at a quarter of the height, left of the middle.
            if drawn.character == 'H' {
                let level = |o: &Outline| spans(o, &Ray::level(was.y0 + 0.25 * was.height()));
                let (a, b) = (level(&drawn.outline), level(&out.outline));
                same_count(a.len(), b.len())?;
                for (a, b) in a.iter().zip(&b) {
                    near("stem", b.1 - b.0, a.1 - a.0, STEM * (a.1 - a.0))?;
                }
            }
        }
        Lesson::Rounds => {
            let stem = class.stem(drawn.character).ok_or("no stem")?;
            let lean = context.slant.to_radians().tan();
            let marks = after.strokes.iter().flat_map(|s| &s.marks);
            let thickest = marks
                .filter(|m| m.runs_upright(lean))
                .map(|m| m.value)
                .fold(0.0, f64::max);
            near("round", thickest, stem, STEM * stem)?;
            same_size(is, was)?;
        }
        Lesson::Joins => {
            // The strips can only add ink, and within the letter's own height.
            let (a, b) = (Ink::of(&drawn.outline).area(), Ink::of(&out.outline).area());
            if b <= a {
                return Err(format!("ink {b:.0} after {a:.0}").into());
            }
            let full: Vec<f64> = out.figures.iter().step_by(2).map(|f| f.drawn).collect();
            for ((from, to), full) in out.is.iter().zip(full) {
                let middle = from.midpoint(*to);
                let ray = Ray::new(middle, *to - *from).ok_or("no way across")?;
                let ink = spans(&out.outline, &ray)
                    .into_iter()
                    .find(|s| s.0 <= 0.5 && s.1 >= -0.5)
                    .ok_or("no ink at the join")?;
                if ink.1 - ink.0 < 0.98 * full {
                    return Err(format!("join {:.1} of {full:.1}", ink.1 - ink.0).into());
                }
            }
        }
        Lesson::Halves | Lesson::Middle => {
            near("top", is.y1, was.y1, ON_THE_LINE)?;
            near("foot", is.y0, was.y0, ON_THE_LINE)?;
            let x = out.is[0].0.x;
            let ink = spans(&out.outline, &Ray::upright(x));
            let whites = match ink[..] {
                [a, b, c] => [b.0 - a.1, c.0 - b.1],
                [a] => [a.0 - is.y0, is.y1 - a.1],
                _ => return Err(format!("{} stretches on the column", ink.len()).into()),
            };
            near("white", whites[0], whites[1], ON_THE_LINE)?;
            if lesson == Lesson::Halves {
                // H has nothing to spread: its halves are as wide as each other.
                let middle = 0.5 * (out.is[0].1.y + out.is[1].0.y);
                let (above, below) = (
                    reach(&out.outline, middle, 1.0),
                    reach(&out.outline, middle, -1.0),
                );
                near("width", above, below, 0.005 * below)?;
            }
        }
        Lesson::Many => {
            let stem = class.stem(drawn.character).ok_or("no stem")?;
            let weight = main_weight(&after.strokes).ok_or("no strokes any more")?;
            near("weight", weight, stem, STEM * stem)?;
            same_size(is, was)?;
        }
        Lesson::Points => {
            let em = context.units_per_em;
            let off = farthest(&drawn.outline, &out.outline);
            // A trace with a point every 16 thousandths of the em strays by a quarter of
            // the way between two where the outline is rough, and hardly where it is smooth.
            if off > 4.0 * em / 1000.0 {
                return Err(format!("the trace strays by {off:.2} units").into());
            }
        }
        Lesson::Bearings | Lesson::Kerning => {}
    }
    Ok(())
}

fn on_a_line(class: &Class, lesson: Lesson) -> Result<(), Failed> {
    let letters: Vec<Drawn> = "HAVTOLo".chars().filter_map(|c| class.drawn(c)).collect();
    let whites = |out: f64| -> Result<Vec<f64>, Failed> {
        let (placed, _) = place(&letters, class, LineMatter::of(lesson), out);
        let boxes: Vec<_> = letters
            .iter()
            .map(|d| bounds(&d.outline))
            .collect::<Result<_, _>>()?;
        Ok((1..letters.len())
            .map(|i| (placed[i].x + boxes[i].x0) - (placed[i - 1].x + boxes[i - 1].x1))
            .collect())
    };
    let out = whites(1.0)?;
    if lesson == Lesson::Bearings {
        for white in &out {
            near("white", *white, out[0], ON_THE_LINE)?;
        }
        let drawn = whites(0.0)?;
        if drawn.iter().all(|w| (w - drawn[0]).abs() < 1.0) {
            return Err("the bearings were equal before".into());
        }
    } else {
        for (i, white) in out.iter().enumerate() {
            let (a, b) = (&letters[i], &letters[i + 1]);
            let bearings = a.letter.right_bearing().zip(b.letter.left_bearing());
            let (right, left) = bearings.ok_or("no bearings")?;
            near("white", *white, right + left, ON_THE_LINE)?;
            let kern = f64::from(class.kerning().value(a.glyph, b.glyph).apart());
            near("kerned", whites(0.0)?[i], right + left + kern, ON_THE_LINE)?;
            near(
                "doubled",
                whites(-1.0)?[i],
                right + left + 2.0 * kern,
                ON_THE_LINE,
            )?;
        }
    }
    Ok(())
}

/// A question shows the level that it says.
fn asked(face: &Face, plain: bool) -> Result<(), Failed> {
    let class = Class::new(open(face)?);
    let mut can = Vec::new();
    for matter in Matter::ALL {
        let Some(asked) = matter.ask(&class) else {
            continue;
        };
        can.push(format!("{matter:?} {}: own {:.1}", asked.letter, asked.own));
        let drawn = class.drawn(asked.letter).ok_or("no such letter")?;
        for level in [
            asked.scale.least,
            0.5 * (asked.scale.least + asked.scale.most),
            asked.scale.most,
        ] {
            let shown = matter
                .show(&class, &asked, level)
                .map_err(|e| format!("{e:?}"))?;
            let b = bounds(&shown.changed)?;
            match matter {
                Matter::Taller => {
                    let context = class.context();
                    let line =
                        |end| GuideKind::of(asked.letter, end).and_then(|k| context.drawn(k));
                    let (top, foot) = (
                        line(End::Top).ok_or("no line")?,
                        line(End::Foot).ok_or("no line")?,
                    );
                    let by = level / 100.0
                        * (class.flat_top(asked.letter).ok_or("no line")? - class.baseline());
                    near("top", b.y1, top + by, ON_THE_LINE)?;
                    near("foot", b.y0, foot - by, ON_THE_LINE)?;
                }
                Matter::Heavier => {
                    let stem = class.stem(asked.letter).ok_or("no stem")?;
                    let after = of_outline(&shown.changed, drawn.letter.advance, class.context());
                    let thickest = after
                        .strokes
                        .iter()
                        .flat_map(|s| &s.marks)
                        .filter(|m| m.runs_upright(class.context().slant.to_radians().tan()))
                        .map(|m| m.value)
                        .fold(0.0, f64::max);
                    near("round", thickest, level / 100.0 * stem, STEM * stem)?;
                }
                Matter::Thicker | Matter::Lower => {
                    let own = bounds(&drawn.outline)?;
                    near("height", b.height(), own.height(), ON_THE_LINE)?;
                }
            }
        }
    }
    println!("{}: {can:?}", face.id);
    if plain && can.len() < Matter::ALL.len() {
        return Err(format!("only {can:?} can be asked").into());
    }
    Ok(())
}

fn bounds(outline: &Outline) -> Result<kurbo::Rect, Failed> {
    outline.bounds().ok_or_else(|| "no ink".into())
}

/// How wide the ink is above a height (1) or below it (-1).
fn reach(outline: &Outline, middle: f64, way: f64) -> f64 {
    let places = outline.segments().iter();
    let all = places.flat_map(|s| (0..=64).map(|k| s.at(f64::from(k) / 64.0)));
    let xs = all.filter(|p| way * (p.y - middle) > 0.0).map(|p| p.x);
    let (least, most) = xs.fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(x), b.max(x)));
    most - least
}

/// As large as it was, to half a per cent.
fn same_size(is: kurbo::Rect, was: kurbo::Rect) -> Result<(), Failed> {
    near("height", is.height(), was.height(), 0.005 * was.height())?;
    near("width", is.width(), was.width(), 0.005 * was.width())
}

/// Stretches of ink on a line.
fn spans(outline: &Outline, ray: &Ray) -> Vec<(f64, f64)> {
    let (mut scratch, mut spans) = (Vec::new(), Vec::new());
    outline.spans(ray, &mut scratch, &mut spans);
    spans.iter().map(|s| (s.from.s, s.to.s)).collect()
}

/// The ink at a place of a line.
fn through(outline: &Outline, ray: &Ray, at: f64) -> Result<f64, Failed> {
    let all = spans(outline, ray);
    let found = all.iter().find(|s| s.0 <= at && s.1 >= at);
    found
        .map(|s| s.1 - s.0)
        .ok_or_else(|| "no ink there".into())
}

fn near(what: &str, is: f64, wanted: f64, within: f64) -> Result<(), Failed> {
    if (is - wanted).abs() <= within {
        return Ok(());
    }
    Err(format!("{what} {is:.3}, not {wanted:.3} within {within:.3}").into())
}

fn same_count(a: usize, b: usize) -> Result<(), Failed> {
    if a == b {
        Ok(())
    } else {
        Err(format!("{b} stretches of ink, {a} before").into())
    }
}

/// How far any place of one outline lies from the other.
fn farthest(a: &Outline, b: &Outline) -> f64 {
    use kurbo::ParamCurveNearest;
    let mut most: f64 = 0.0;
    for s in b.segments() {
        for k in 0..=4 {
            let p = s.at(f64::from(k) / 4.0);
            let near = a
                .segments()
                .iter()
                .filter(|o| {
                    let reach = o.bounds().inflate(60.0, 60.0);
                    reach.contains(p)
                })
                .map(|o| o.path_seg().nearest(p, 1e-3).distance_sq)
                .fold(f64::INFINITY, f64::min);
            most = most.max(near.sqrt());
        }
    }
    most
}
