//! Drawings with known ink, and hostile ones.

use super::*;
use counterpoise::outline::Ink;
use std::fmt::Write;

fn svg(inside: &str) -> String {
    format!(
        "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' \
         viewBox='0 0 1000 1000'>{inside}</svg>"
    )
}

fn area(inside: &str) -> f64 {
    let sheet = read(&svg(inside)).unwrap();
    sheet.shapes.iter().map(|s| Ink::of(s).area()).sum()
}

#[track_caller]
fn near(inside: &str, expected: f64) {
    let found = area(inside);
    assert!(
        (found - expected).abs() < 1e-3 * expected,
        "{found} for {expected}"
    );
}

#[test]
fn shapes_groups_transforms_uses_and_strokes_are_ink() {
    near("<rect x='10' y='10' width='100' height='50'/>", 5000.0);
    near(
        "<g transform='scale(2) rotate(30)'><rect width='100' height='50'/></g>",
        20000.0,
    );
    near(
        "<path d='M0 0h100v100h-100zM25 25h50v50h-50z' fill-rule='evenodd'/>",
        7500.0,
    );
    near("<path d='M0 0h100v100h-100zM25 25v50h50v-50z'/>", 7500.0);
    near(
        "<path d='M0 100h300' stroke='#000' stroke-width='20' fill='none'/>",
        6000.0,
    );
    near(
        "<defs><path id='a' d='M0 0h10v10h-10z'/></defs><use xlink:href='#a'/><use href='#a' x='50'/>",
        200.0,
    );
    near(
        "<style>.a{fill:url(#g)}.b{fill:none;clip-path:url(#c)}</style>\
          <rect class='a' width='10' height='10'/><rect class='b' width='10' height='10'/>",
        100.0,
    );
    let circle = std::f64::consts::PI * 2500.0;
    near("<circle cx='500' cy='500' r='50'/>", circle);
}

#[test]
fn y_runs_up_and_units_are_the_drawings_own() {
    let text = "<svg xmlns='http://www.w3.org/2000/svg' width='50mm' viewBox='0 -700 500 1000'>\
                <rect x='20' y='-700' width='100' height='700'/></svg>";
    let b = read(text).unwrap().shapes[0].bounds().unwrap();
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-2, "{a} for {b}");
    near(b.x0, 20.0);
    near(b.x1, 120.0);
    near(b.y0, 0.0);
    near(b.y1, 700.0);
}

#[test]
fn white_is_paper_and_says_so() {
    let sheet = read(&svg(
        "<rect width='1000' height='1000' fill='white'/><rect width='9' height='9'/>",
    ));
    let sheet = sheet.unwrap();
    assert_eq!(sheet.shapes.len(), 1);
    assert_eq!(sheet.notes, [Note::White]);
}

#[test]
fn nothing_runs_and_nothing_is_fetched() {
    let sheet = read(&svg(
        "<script>alert(1)</script><rect width='9' height='9' onclick='x()'/>\
         <image href='http://a.b/c.png' width='5' height='5'/><use href='other.svg#a'/>\
         <style>@import url(http://a.b/c.css);</style><text x='1' y='9'>A</text>\
         <foreignObject><body onload='x()'/></foreignObject>\
         <rect width='9' height='9' filter='url(#f)'/>",
    ))
    .unwrap();
    assert_eq!(
        sheet.notes,
        [
            Note::Script,
            Note::Outside,
            Note::Picture,
            Note::Text,
            Note::Effects
        ]
    );
    let cleaned = clean::clean(&svg(
        "<script>alert(1)</script><g ONLOAD='x()'><path d='M0 0h1v1z'/></g><image href='/etc/a.png'/>",
    ))
    .unwrap();
    for word in ["script", "alert", "ONLOAD", "image", "etc"] {
        assert!(!cleaned.text.contains(word), "{}", cleaned.text);
    }
}

#[track_caller]
fn refused(text: &str, code: &str) {
    let e = read(text).unwrap_err();
    assert_eq!(e.code(), code, "{e}");
    assert!(e.to_string().ends_with('.'), "{e}");
}

#[test]
fn hostile_drawings_get_a_sentence() {
    refused("", "empty");
    refused("Dear foundry,", "not-xml");
    refused("<html/>", "not-svg");
    refused("<svg xmlns='http://www.w3.org/2000/svg'><g>", "not-xml");
    refused(&svg(""), "no-ink");
    let laughs = "<!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;'>]>";
    refused(&format!("{laughs}{}", svg("&b;")), "entities");
    let outside = "<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/passwd'>]>";
    refused(&format!("{outside}{}", svg("<path d='&a;'/>")), "entities");
    let deep = "<g>".repeat(100_000) + &"</g>".repeat(100_000);
    refused(&svg(&deep), "too-deep");

    let mut many = String::from("M0 0");
    for i in 0..1_000_000 {
        let _ = write!(many, "L{} {}", i % 997, i % 991);
    }
    refused(&svg(&format!("<path d='{many}'/>")), "too-many-points");
    refused(&svg(&"<g/>".repeat(200_000)), "too-many-elements");

    // Ten uses of ten uses of ... of one square.
    let mut uses = String::from("<defs><path id='u0' d='M0 0h1v1z'/>");
    for i in 0..9 {
        let ten = format!("<use href='#u{i}'/>").repeat(10);
        let _ = write!(uses, "<g id='u{}'>{ten}</g>", i + 1);
    }
    refused(
        &svg(&format!("{uses}</defs><use href='#u9'/>")),
        "too-many-elements",
    );
    refused(&svg("<g id='a'><use href='#a'/></g>"), "too-deep");
    // A chain of parts, each used by the next, is as deep as it is long.
    let mut chain = String::from("<path id='c0' d='M0 0h1v1z'/>");
    for i in 0..200 {
        let _ = write!(chain, "<g id='c{}'><use href='#c{i}'/></g>", i + 1);
    }
    refused(
        &svg(&format!("<defs>{chain}</defs><use href='#c200'/>")),
        "too-deep",
    );
    refused(&"x".repeat(DrawingError::MAX_BYTES + 1), "too-large");
}

#[test]
fn what_reaches_farther_than_any_letter_is_refused() {
    for huge in [
        // The reader's strokes stumble over its square.
        "<path d='M0 0 4-6Q8088880 98888888888888888888888 9888888888888888888888888 2L8 0Z' stroke='#000'/>",
        "<path style='fill:none; stroke-width : 1e30' d='M0 0h9v9z'/>",
        "<style>path { stroke-width:1e30 }</style><path d='M0 0h9v9z'/>",
        "<path transform='scale(-1e8)' d='M0 0h9v9z'/>",
        // An arc that would be a million curves.
        "<circle r='2333333333333333333333333333333333333'/>",
        "<ellipse rx='1' ry='1e36'/>",
        "<rect width='2' height='2' rx='1E+37'/>",
        "<path d='M0 0A1e36.5 1e36 0 0 1 9 9z'/>",
    ] {
        refused(&svg(huge), "too-far");
    }
    let arcs = format!("<path d='M0 0{}z'/>", "a5 5 0 0 1 9 9".repeat(60_000));
    refused(&svg(&arcs), "too-many-points");
    let sound = svg(
        // Colours and names hold digits, and no numbers; what stands behind a point is no number of its own.
        "<circle r='400.123456789012345' id='a99999999999' fill='#000000e99' style='fill:#12345678e9'/><path d='M0 0a5 5 0 0 1 9 9z'/><rect width='3' height='1e3' rx='.5'/>",
    );
    assert!(read(&sound).is_ok());
}

#[test]
fn plain_entities_of_drawing_programs_are_followed() {
    let text = "<?xml version='1.0'?><!DOCTYPE svg [<!ENTITY ns 'http://www.w3.org/2000/svg'>]>\
                <svg xmlns='&ns;' viewBox='0 0 9 9'><rect width='3' height='3'/></svg>";
    assert_eq!(read(text).unwrap().shapes.len(), 1);
}
