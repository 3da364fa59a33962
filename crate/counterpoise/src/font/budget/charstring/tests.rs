//! Tables made by hand. Numbers from -107 to 107 take one byte, 139 for nought.

use super::*;

const CALL_GLOBAL: u8 = 29;
const RETURN: u8 = 11;
const END: u8 = 14;

fn number(n: i32) -> u8 {
    u8::try_from(n + 139).unwrap()
}

/// An INDEX whose count takes so many bytes.
fn index(strings: &[Vec<u8>], count_size: usize) -> Vec<u8> {
    let count = u32::try_from(strings.len()).unwrap().to_be_bytes();
    let mut data = count[4 - count_size..].to_vec();
    if strings.is_empty() {
        return data;
    }
    data.push(4);
    let mut offset = 1_u32;
    data.extend(offset.to_be_bytes());
    for string in strings {
        offset += u32::try_from(string.len()).unwrap();
        data.extend(offset.to_be_bytes());
    }
    [data, strings.concat()].concat()
}

fn offset(at: usize, operator: u8) -> Vec<u8> {
    let at = u32::try_from(at).unwrap().to_be_bytes();
    [&[29], &at[..], &[operator]].concat()
}

fn one(glyphs: &[Vec<u8>], global: &[Vec<u8>]) -> Result<(), Refusal> {
    let table = |at| {
        let top = index(&[offset(at, 17)], 2);
        let (names, strings) = (index(&[b"A".to_vec()], 2), index(&[], 2));
        [vec![1, 0, 4, 4], names, top, strings, index(global, 2)].concat()
    };
    let at = table(0).len();
    let table = [table(at), index(glyphs, 2)].concat();
    rehearse(&Cff::one(&table).unwrap(), 0)
}

/// A CFF2 glyph whose blended values have one delta each.
fn two(glyph: &[u8]) -> Result<(), Refusal> {
    let store = [
        &[0, 20, 0, 1, 0, 0, 0, 12, 0, 1, 0, 0, 0, 12][..],
        &[0, 0, 0, 0, 0, 1, 0, 0],
    ]
    .concat();
    let head = |charstrings, store| {
        let top = [offset(charstrings, 17), offset(store, 24)].concat();
        let length = u8::try_from(top.len()).unwrap();
        [vec![2, 0, 5, 0, length], top, index(&[], 4)].concat()
    };
    let start = head(0, 0).len();
    let glyphs = index(&[glyph.to_vec()], 4);
    let table = [head(start, start + glyphs.len()), glyphs, store].concat();
    rehearse(&Cff::two(&table).unwrap(), 0)
}

/// Each of nine subroutines calls the next so many times.
fn multiplied(times: usize) -> Result<(), Refusal> {
    let call = |i: i32| vec![number(i - 107), CALL_GLOBAL];
    let mut global: Vec<Vec<u8>> = (1..=8)
        .map(|next| [call(next).repeat(times), vec![RETURN]].concat())
        .collect();
    global.push(vec![RETURN]);
    one(&[[call(0), vec![END]].concat()], &global)
}

#[test]
fn calls_are_counted_as_often_as_they_are_made() {
    assert_eq!(multiplied(2), Ok(()));
    assert_eq!(multiplied(10), Err(Refusal::TooLarge));
}

#[test]
fn a_subroutine_that_calls_itself_is_broken() {
    let itself = vec![number(-107), CALL_GLOBAL];
    assert_eq!(
        one(std::slice::from_ref(&itself), std::slice::from_ref(&itself)),
        Err(Refusal::Broken)
    );
}

#[test]
fn an_index_may_be_left_by_the_caller() {
    // Both operands are pushed before the first call takes the second of them.
    let glyph = vec![number(-106), number(-107), CALL_GLOBAL, CALL_GLOBAL, END];
    let sound = [vec![RETURN], vec![RETURN]];
    assert_eq!(one(std::slice::from_ref(&glyph), &sound), Ok(()));
    assert_eq!(one(&[glyph], &sound[..1]), Err(Refusal::Broken));
}

#[test]
fn masks_are_as_long_as_the_hints_are_many() {
    // Nine hints: the mask takes two bytes, both of which would call if run.
    let hints = [vec![number(1); 18], vec![18]].concat();
    let mask = vec![19, CALL_GLOBAL, CALL_GLOBAL];
    assert_eq!(one(&[[hints, mask, vec![END]].concat()], &[]), Ok(()));
}

#[test]
fn accented_letters_are_followed() {
    // In the standard encoding 32 and 33 are the glyphs 1 and 2 of ISOAdobe.
    let accented = |base: u8, accent: u8| {
        let codes = [number(base.into()), number(accent.into())];
        [&[number(0), number(0)], &codes[..], &[END]].concat()
    };
    let plain = vec![END];
    let glyph = accented(32, 33);
    assert_eq!(
        one(&[glyph.clone(), plain.clone(), plain.clone()], &[]),
        Ok(())
    );
    // An accent that is not there, and a base that is accented in turn for ever.
    assert_eq!(
        one(&[glyph.clone(), plain.clone()], &[]),
        Err(Refusal::Broken)
    );
    assert_eq!(
        one(&[glyph, accented(32, 33), plain], &[]),
        Err(Refusal::Broken)
    );
}

#[test]
fn blending_needs_its_operands() {
    // One value and its delta.
    let blend = [number(5), number(1), number(1), 16];
    assert_eq!(two(&[&blend[..], &[22]].concat()), Ok(()));
    assert_eq!(two(&blend[1..]), Err(Refusal::Broken));
    // The parser would panic at this one.
    assert_eq!(two(&[16]), Err(Refusal::Broken));
    // A blended value names no subroutine.
    let called = [&blend[..], &[CALL_GLOBAL]].concat();
    assert_eq!(two(&called), Err(Refusal::Broken));
}

#[test]
fn cut_numbers_are_broken() {
    for cut in [&[28, 0][..], &[247], &[255, 0, 0, 0]] {
        assert_eq!(one(&[cut.to_vec()], &[]), Err(Refusal::Broken));
    }
}
