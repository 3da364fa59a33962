//! Text set with our own sample face.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

use counterpoise_shaping::{MOST_CHARACTERS, Shaper};

fn shaper() -> Shaper {
    let font = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
    Shaper::open(font, 0).unwrap()
}

#[test]
fn kerned_pairs_stand_nearer() {
    let shaper = shaper();
    let length = |kerning| -> i32 {
        let placed = shaper.shape("AV", kerning);
        placed.iter().map(|p| p.advance).sum()
    };
    assert_eq!(length(true), length(false) - 56);
}

#[test]
fn characters_are_counted_in_code_points() {
    let placed = shaper().shape("A\u{1F600}V", true);
    let characters: Vec<u32> = placed.iter().map(|p| p.character).collect();
    assert_eq!(characters, [0, 1, 2]);
    assert_eq!(placed[1].glyph, 0);
}

#[test]
fn no_text_and_too_much_text_do_no_harm() {
    assert!(shaper().shape("", true).is_empty());
    let long = "n".repeat(2 * MOST_CHARACTERS);
    assert_eq!(shaper().shape(&long, true).len(), MOST_CHARACTERS);
}

#[test]
fn what_is_no_font_sets_no_text() {
    assert!(Shaper::open(b"Dear foundry".to_vec(), 0).is_none());
    assert!(Shaper::open(Vec::new(), 3).is_none());
}

#[test]
fn damaged_fonts_set_text_or_none_and_do_not_fail() {
    let sound = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
    let mut state = 7_u32;
    let mut next = || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (state >> 8) as usize
    };
    for _ in 0..300 {
        let mut bytes = sound.clone();
        for _ in 0..8 {
            let at = next() % bytes.len();
            bytes[at] = next() as u8;
        }
        if let Some(shaper) = Shaper::open(bytes, 0) {
            shaper.shape("AVATAR To nn", true);
        }
    }
}
