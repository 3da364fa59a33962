//! Darkness of shapes whose ink is known, and of lines whose odd letter is.

use super::grid::{Grid, MOST_PIXELS};
use super::sight::look_with;
use super::*;
use crate::outline::{Ink, Ray, Span};
use kurbo::{BezPath, Circle, Shape};

fn outline(path: &BezPath) -> Outline {
    Outline::from_path(path)
}

fn polygon(points: &[(f64, f64)]) -> BezPath {
    let mut p = BezPath::new();
    p.move_to(points[0]);
    points[1..].iter().for_each(|&q| p.line_to(q));
    p.close_path();
    p
}

fn band(from: f64, to: f64) -> Band {
    Band::new(from, to).unwrap()
}

fn band_ink(path: &BezPath, band: Band) -> f64 {
    let o = outline(path);
    darkness(&Ink::of(&o), 500.0, Some(band)).band_ink.unwrap()
}

/// An S of sorts, whose edges cross a level line up to three times.
fn snake() -> BezPath {
    let mut p = BezPath::new();
    p.move_to((0.0, -40.0));
    p.curve_to((400.0, 300.0), (-300.0, 320.0), (90.0, 640.0));
    p.line_to((200.0, 600.0));
    p.curve_to((-80.0, 300.0), (640.0, 250.0), (130.0, -60.0));
    p.close_path();
    p
}

#[test]
fn a_stem_fills_its_box_and_part_of_its_body() {
    let o = outline(&Rect::new(55.0, -100.0, 145.0, 800.0).to_path(0.1));
    let d = darkness(&Ink::of(&o), 200.0, Some(band(0.0, 500.0)));
    assert_eq!(d.of_box, Some(1.0));
    assert_eq!(d.band_ink, Some(45_000.0));
    assert_eq!(d.of_body, Some(0.45));
}

#[test]
fn a_disc_cut_by_a_band() {
    let disc = Circle::new((300.0, 250.0), 260.0).to_path(1e-9);
    // Less a segment above and one below, r^2 (a - sin a cos a), cos a = h / r.
    let a = (250.0_f64 / 260.0).acos();
    let segment = 260.0 * 260.0 * (a - a.sin() * a.cos());
    let truth = std::f64::consts::PI * 260.0 * 260.0 - 2.0 * segment;
    let got = band_ink(&disc, band(0.0, 500.0));
    assert!((got - truth).abs() < 0.1, "{got} against {truth}");
    let backwards = band_ink(&disc.reverse_subpaths(), band(0.0, 500.0));
    assert!((got - backwards).abs() < 1e-6);
}

#[test]
fn a_counter_stays_white_where_it_is_cut() {
    let mut ring = Circle::new((0.0, 250.0), 260.0).to_path(1e-9);
    ring.extend(
        Circle::new((0.0, 250.0), 170.0)
            .to_path(1e-9)
            .reverse_subpaths(),
    );
    let disc = |r| {
        band_ink(
            &Circle::new((0.0, 250.0), r).to_path(1e-9),
            band(150.0, 350.0),
        )
    };
    let got = band_ink(&ring, band(150.0, 350.0));
    assert!((got - (disc(260.0) - disc(170.0))).abs() < 1e-6);
}

#[test]
fn overlaps_in_the_band_count_once() {
    let mut plus = Rect::new(0.0, 200.0, 300.0, 260.0).to_path(0.1);
    plus.extend(Rect::new(100.0, -50.0, 190.0, 600.0).to_path(0.1));
    let truth = 90.0 * 500.0 + (300.0 - 90.0) * 60.0;
    assert!((band_ink(&plus, band(0.0, 500.0)) - truth).abs() < 1e-6);
}

#[test]
fn a_shape_of_many_turns_against_level_lines() {
    let o = outline(&snake());
    for (from, to) in [(0.0, 500.0), (-40.0, 200.0), (117.0, 118.0), (300.0, 900.0)] {
        const LINES: u32 = 4000;
        let (mut crossings, mut spans) = (Vec::new(), Vec::new());
        let mut sum = 0.0;
        for i in 0..LINES {
            let y = from + (to - from) * (f64::from(i) + 0.5) / f64::from(LINES);
            o.spans(&Ray::level(y), &mut crossings, &mut spans);
            sum += spans.iter().map(Span::length).sum::<f64>();
        }
        let truth = sum * (to - from) / f64::from(LINES);
        let got = band_ink(&snake(), band(from, to));
        assert!((got - truth).abs() < 2.0, "{got} against {truth}");
    }
}

#[test]
fn parts_of_a_band_add_up() {
    let (lower, upper) = (
        band_ink(&snake(), band(-100.0, 211.0)),
        band_ink(&snake(), band(211.0, 700.0)),
    );
    assert!((lower + upper - outline(&snake()).ink_area()).abs() < 1e-6);
}

#[test]
fn a_band_that_only_touches_the_ink_holds_none() {
    let bar = Rect::new(0.0, 500.0, 300.0, 570.0).to_path(0.1);
    assert_eq!(band_ink(&bar, band(0.0, 500.0)), 0.0);
    assert_eq!(band_ink(&bar, band(570.0, 700.0)), 0.0);
    assert_eq!(band_ink(&bar, band(500.0, 570.0)), 21_000.0);
}

#[test]
fn what_cannot_be_is_absent() {
    let b = Some(band(0.0, 500.0));
    assert_eq!(
        darkness(&Ink::of(&Outline::default()), 500.0, b),
        Darkness::default()
    );
    let stem = outline(&Rect::new(0.0, 0.0, 90.0, 700.0).to_path(0.1));
    let of = |advance| darkness(&Ink::of(&stem), advance, b).of_body;
    for advance in [0.0, 1e-300, -20.0, f64::NAN, f64::INFINITY] {
        assert_eq!(of(advance), None, "{advance}");
    }
    for odd in [f64::NAN, f64::INFINITY, 1e300] {
        let o = outline(&polygon(&[(0.0, 0.0), (odd, 10.0), (100.0, odd)]));
        assert_eq!(darkness(&Ink::of(&o), 500.0, b), Darkness::default());
    }
    assert_eq!(Band::new(500.0, 0.0), None);
    assert_eq!(Band::new(f64::NAN, 0.0), None);
    assert_eq!(Band::new(-1e308, 1e308), None);
    let flat = outline(&polygon(&[(0.0, 0.0), (100.0, 0.0), (50.0, 0.0)]));
    assert_eq!(darkness(&Ink::of(&flat), 500.0, b).of_box, None);
}

/// An arch of two stems and a bar, 500 high; with a stem of 90, a text face's n.
fn arch(stem: f64) -> Outline {
    outline(&polygon(&[
        (60.0, 0.0),
        (60.0 + stem, 0.0),
        (60.0 + stem, 430.0),
        (440.0 - stem, 430.0),
        (440.0 - stem, 0.0),
        (440.0, 0.0),
        (440.0, 500.0),
        (60.0, 500.0),
    ]))
}

/// A line of letters of 500 advance; a `None` is a word space of 250.
fn line<'a>(letters: &[Option<&'a Outline>]) -> Vec<LineLetter<'a>> {
    let mut x = 0.0;
    let mut line = Vec::new();
    for letter in letters {
        if let Some(outline) = letter {
            line.push(LineLetter {
                outline,
                x,
                advance: 500.0,
                band: Some(band(0.0, 500.0)),
            });
            x += 500.0;
        } else {
            x += 250.0;
        }
    }
    line
}

fn eye() -> Eye {
    Eye::new(500.0).unwrap()
}

fn on_grid(letters: &[LineLetter<'_>], fineness: f64, shift: (f64, f64)) -> Sight {
    look_with(letters, eye(), |parts, sigma| {
        Grid::over(parts, sigma, fineness, shift.into())
    })
    .unwrap()
}

fn darknesses(sight: &Sight) -> Vec<f64> {
    sight.shades.iter().map(|s| s.unwrap().darkness).collect()
}

#[test]
fn in_a_line_of_equal_letters_none_stands_out() {
    let n = arch(90.0);
    let n = Some(&n);
    let letters = line(&[n, n, n, None, n, n, n, n, None, n]);
    for cycles in [0.5, 1.5, 2.0, 3.0, 6.0] {
        let sight = look(&letters, eye().with_cycles(cycles)).unwrap();
        assert_eq!(sight.standout(), None);
        for shade in sight.shades.iter().flatten() {
            let off = shade.deviation.unwrap();
            // At half a cycle the blur reaches over the word space.
            let within = if cycles < 1.0 { 3.0 } else { 0.1 };
            assert!(off.abs() < within, "{off} at {cycles} cycles");
        }
    }
}

#[test]
fn one_letter_bolder_or_lighter_by_9_percent_stands_out() {
    let (n, bold, light) = (arch(90.0), arch(98.1), arch(81.9));
    for (odd, sign) in [(&bold, 1.0), (&light, -1.0)] {
        for at in [0, 3, 7] {
            let mut word = [Some(&n); 8];
            word[at] = Some(odd);
            let letters = line(&word);
            let sight = look(&letters, eye()).unwrap();
            let (which, by) = sight.standout().unwrap();
            assert_eq!((which, by.signum()), (at, sign));
            let shade = sight.shades[at].unwrap();
            for beside in [shade.neighbours.unwrap(), shade.word.unwrap()] {
                assert!((shade.darkness - beside) * sign > 0.03 * beside);
            }
        }
    }
}

#[test]
fn the_grid_does_not_show_in_the_figures() {
    let (n, bold) = (arch(90.0), arch(98.1));
    let snake = outline(&snake());
    let letters = line(&[Some(&n), Some(&bold), Some(&snake), None, Some(&n)]);
    let reference = darknesses(&on_grid(&letters, 16.0, (0.0, 0.0)));
    for fineness in [2.0, 3.0, 4.3] {
        for shift in [(0.0, 0.0), (0.25, 0.5), (0.5, 0.75), (0.9, 0.1)] {
            let other = darknesses(&on_grid(&letters, fineness, shift));
            for (a, b) in reference.iter().zip(&other) {
                let off = (b / a - 1.0).abs();
                assert!(off < 0.003, "{a} and {b} at {fineness}, {shift:?}");
            }
        }
    }
}

#[test]
fn moving_the_line_changes_nothing() {
    let (n, snake) = (arch(90.0), outline(&snake()));
    let here = line(&[Some(&n), Some(&snake), Some(&n)]);
    let there: Vec<_> = here
        .iter()
        .map(|l| LineLetter {
            x: l.x + 1234.567,
            ..*l
        })
        .collect();
    let (a, b) = (look(&here, eye()).unwrap(), look(&there, eye()).unwrap());
    for (a, b) in darknesses(&a).iter().zip(darknesses(&b)) {
        assert!((a / b - 1.0).abs() < 0.001);
    }
}

#[test]
fn the_blur_keeps_all_ink() {
    let (n, snake) = (arch(90.0), outline(&snake()));
    let letters = line(&[Some(&n), Some(&snake), None, Some(&n), Some(&snake)]);
    let truth: f64 = letters.iter().map(|l| l.outline.ink_area()).sum();
    for cycles in [0.5, 2.0, 3.0, 6.0] {
        let sight = look(&letters, eye().with_cycles(cycles)).unwrap();
        let got = sight.blurred.total_ink();
        assert!((got / truth - 1.0).abs() < 0.001, "{got} against {truth}");
    }
}

#[test]
fn an_edge_is_blurred_as_a_gaussian_blurs_it() {
    let slab = outline(&Rect::new(0.0, -2000.0, 4000.0, 2000.0).to_path(0.1));
    let letters = [LineLetter {
        outline: &slab,
        x: 0.0,
        advance: 4000.0,
        band: Some(band(0.0, 500.0)),
    }];
    let b = look(&letters, eye()).unwrap().blurred;
    let row = (b.origin.y / b.pixel) as usize;
    let at = |x: f64| {
        let cell = (x - b.origin.x) / b.pixel - 0.5;
        let (i, part) = (cell.floor() as usize, cell - cell.floor());
        let v = |i: usize| f64::from(b.ink[row * b.width + i]);
        v(i) * (1.0 - part) + v(i + 1) * part
    };
    // The standard normal distribution at 0, 1, -1 and 2.
    let sigma = eye().sigma();
    for (x, truth) in [(0.0, 0.5), (1.0, 0.8413), (-1.0, 0.1587), (2.0, 0.9772)] {
        let got = at(x * sigma);
        assert!((got - truth).abs() < 0.004, "{got} against {truth}");
    }
}

#[test]
fn the_mean_is_the_pictures_own() {
    let (n, snake) = (arch(90.0), outline(&snake()));
    let letters = line(&[Some(&n), Some(&snake), Some(&n)]);
    let sight = on_grid(&letters, 6.0, (0.3, 0.6));
    let b = &sight.blurred;
    let (mut sum, mut count) = (0.0, 0.0);
    for row in 0..b.height {
        for column in 0..b.width {
            let x = b.origin.x + (column as f64 + 0.5) * b.pixel;
            let y = b.origin.y - (row as f64 + 0.5) * b.pixel;
            if (500.0..1000.0).contains(&x) && (0.0..500.0).contains(&y) {
                sum += f64::from(b.ink[row * b.width + column]);
                count += 1.0;
            }
        }
    }
    let got = darknesses(&sight)[1];
    assert!((got / (sum / count) - 1.0).abs() < 0.01, "{got}");
}

#[test]
fn ink_laid_on_ink_is_counted_once() {
    let slab = outline(&Rect::new(0.0, 0.0, 400.0, 500.0).to_path(0.1));
    let at = |x| LineLetter {
        outline: &slab,
        x,
        advance: 400.0,
        band: Some(band(0.0, 500.0)),
    };
    let sight = look(&[at(0.0), at(100.0)], eye()).unwrap();
    assert!((sight.blurred.total_ink() / 250_000.0 - 1.0).abs() < 0.001);
}

#[test]
fn two_letters_have_no_habit_to_stand_out_from() {
    let (n, bold) = (arch(90.0), arch(140.0));
    let sight = look(&line(&[Some(&n), Some(&bold)]), eye()).unwrap();
    assert!(sight.shades.iter().all(|s| s.unwrap().deviation.is_none()));
    let alone = look(&line(&[Some(&n)]), eye()).unwrap().shades[0].unwrap();
    assert_eq!((alone.neighbours, alone.word), (None, None));
}

#[test]
fn letters_that_cannot_be_have_no_figure_and_harm_no_other() {
    let n = arch(90.0);
    let torn = outline(&polygon(&[(0.0, 0.0), (f64::NAN, 10.0), (100.0, 90.0)]));
    let blank = Outline::default();
    let mut letters = line(&[Some(&n), Some(&n), Some(&n)]);
    let whole = darknesses(&look(&letters, eye()).unwrap());
    let with = |outline, x, advance, band| LineLetter {
        outline,
        x,
        advance,
        band,
    };
    let b = Some(band(0.0, 500.0));
    for odd in [
        with(&torn, 200.0, 500.0, b),
        with(&blank, 700.0, 500.0, b),
        with(&n, f64::NAN, 500.0, b),
        with(&n, f64::INFINITY, 500.0, b),
        with(&n, 1e300, 500.0, b),
        with(&n, 5000.0, f64::NAN, b),
        with(&n, 5000.0, 0.0, b),
        with(&n, 5000.0, 1e-300, b),
        with(&n, 5000.0, -500.0, b),
        with(&n, 5000.0, 1e300, b),
        with(&n, 5000.0, 500.0, None),
    ] {
        letters.push(odd);
        let sight = look(&letters, eye()).unwrap();
        letters.pop();
        assert_eq!(sight.shades[3], None);
        for (shade, mean) in sight.shades.iter().flatten().zip(&whole) {
            assert!((shade.darkness - mean).abs() < 1e-4);
        }
    }
    assert!(look(&[], eye()).is_none());
    assert!(look(&[with(&torn, 0.0, 500.0, b)], eye()).is_none());
}

#[test]
fn a_line_too_long_is_drawn_coarser_within_the_bound() {
    let n = arch(90.0);
    let longer: Vec<_> = (0..3000).map(|_| Some(&n)).collect();
    let sight = look(&line(&longer), eye()).unwrap();
    let pixels = |s: &Sight| s.blurred.width * s.blurred.height;
    assert!(pixels(&sight) as f64 <= MOST_PIXELS && sight.blurred.pixel > eye().sigma() / 3.0);
    assert!(sight.shades.iter().all(Option::is_some) && sight.standout().is_none());

    // Two letters at the ends of the world: a picture, but no figures.
    let mut apart = line(&[Some(&n), Some(&n)]);
    apart[1].x = 9e6;
    let sight = look(&apart, eye()).unwrap();
    assert!(pixels(&sight) as f64 <= MOST_PIXELS);
    assert_eq!(sight.shades, [None, None]);
    assert!(sight.blurred.ink.iter().all(|v| v.is_finite()));
}

#[test]
fn many_large_letters_in_one_place_stay_cheap() {
    let slab = outline(&Rect::new(0.0, 0.0, 20_000.0, 20_000.0).to_path(0.1));
    let letters: Vec<_> = (0..2000)
        .map(|_| LineLetter {
            outline: &slab,
            x: 0.0,
            advance: 20_000.0,
            band: Some(band(0.0, 20_000.0)),
        })
        .collect();
    let b = look(&letters, eye()).unwrap().blurred;
    assert!((b.width * b.height) as f64 * 2000.0 <= 3.0 * MOST_PIXELS);
}

#[test]
fn a_thicket_of_lines_is_drawn_coarser() {
    let spikes: Vec<(f64, f64)> = (0..20_000)
        .map(|i| (f64::from(i % 2) * 500.0, f64::from(i) * 0.25))
        .collect();
    let thicket = outline(&polygon(&spikes));
    let letters: Vec<_> = (0..20).map(|_| Some(&thicket)).collect();
    let sight = look(&line(&letters), eye()).unwrap();
    assert!(sight.blurred.pixel > eye().sigma() / 3.0);
    assert!(sight.blurred.ink.iter().all(|v| v.is_finite()));
}

#[test]
fn ink_outside_the_advance_is_drawn_whole() {
    let far = outline(&Rect::new(-900.0, -400.0, 1700.0, -300.0).to_path(0.1));
    let n = arch(90.0);
    let mut letters = line(&[Some(&n), Some(&n)]);
    letters.push(LineLetter {
        outline: &far,
        x: 0.0,
        advance: 0.0,
        band: None,
    });
    let truth = 2.0 * n.ink_area() + far.ink_area();
    let b = look(&letters, eye()).unwrap().blurred;
    assert!((b.total_ink() / truth - 1.0).abs() < 0.001);
    assert!(b.origin.x < -900.0 && b.origin.y > 500.0);
}
