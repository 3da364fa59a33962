//! Lessons on our own sample face, as the page would give them.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

use counterpoise::font::Font;
use counterpoise::lesson::Class;
use counterpoise::report::{EyeMatter, LessonName, LessonReport, LessonState, WordReport};

fn class() -> Class {
    let bytes = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
    Class::new(Font::open(bytes).unwrap())
}

#[test]
fn every_lesson_shows_something_on_the_sample() {
    let class = class();
    for &name in LessonName::ALL {
        let report = LessonReport::of(&class, name, "", 1.0);
        let changed = |l: &counterpoise::report::LessonLetter| {
            l.state == LessonState::Changed && !l.figures.is_empty()
        };
        assert!(report.letters.iter().any(changed), "{name:?}: {report:?}");
        assert_eq!(report.missing, "");
        assert!(report.length.iter().all(|l| l.is_finite()));
    }
}

#[test]
fn any_text_and_any_number_do_no_harm() {
    let class = class();
    let long = "n".repeat(10_000);
    for text in ["", " ", "\u{6f22}\u{0}", "&\u{301}", &long] {
        for out in [0.0, 1.0, -1.0, 7.0, f64::NAN, f64::INFINITY] {
            for &name in LessonName::ALL {
                let report = LessonReport::of(&class, name, text, out);
                assert!((-1.0..=1.0).contains(&report.out));
                assert!(report.letters.len() <= 12);
            }
        }
    }
}

#[test]
fn every_question_can_be_asked_of_the_sample() {
    let class = class();
    for matter in EyeMatter::ALL {
        assert!(matter.matter().ask(&class).is_some(), "{matter:?}");
        assert_eq!(
            EyeMatter::named(&format!("{matter:?}").to_lowercase()),
            Some(matter)
        );
    }
}

#[test]
fn most_words_have_a_picture_on_the_sample() {
    let words = WordReport::all(&class());
    let bare: Vec<&str> = words
        .iter()
        .filter(|w| w.picture.is_none())
        .map(|w| w.term.as_str())
        .collect();
    // A grotesque has no serifs, and the sample's rounds end where they please.
    assert!(bare.len() <= 3, "{bare:?}");
    for w in words {
        if let Some(p) = w.picture {
            assert!(p.bounds.iter().all(|v| v.is_finite()) && p.bounds[2] > p.bounds[0]);
        }
    }
}
