//! What pointers do.

use super::*;

#[test]
fn a_drag_moves_along_the_baseline_only_and_is_one_step() {
    let mut s = stage("HO");
    let before = work(&s);
    drag(&mut s, (1000.0, 350.0), (800.0, 100.0));
    assert_eq!(x(&s, 1), 400.0);
    assert_eq!(ink(&s, 1).y0, 0.0);
    assert_eq!(s.state().items[1].moved, Some(-200.0));
    assert_eq!(s.state().undo.as_deref(), Some("Move O"));
    s.run(Command::Undo).unwrap();
    assert_eq!(work(&s), before);
    s.run(Command::Redo).unwrap();
    assert_eq!(x(&s, 1), 400.0);
}

#[test]
fn a_drag_ends_near_home_in_its_own_place() {
    let mut s = stage("HO");
    s.run(place(1, 700.0)).unwrap();
    drag(&mut s, (1100.0, 350.0), (1002.0, 350.0));
    assert_eq!(s.state().items[1].moved, None);
}

#[test]
fn a_press_without_a_drag_chooses() {
    let mut s = stage("HO");
    for (phase, x) in [(PointerPhase::Down, 100.0), (PointerPhase::Up, 101.0)] {
        let event = at(&s, phase, x, 350.0);
        s.pointer(&event);
    }
    let state = s.state();
    assert!(state.items[0].selected && !state.items[1].selected);
    assert_eq!(x(&s, 0), 0.0);
    assert_eq!(state.undo.as_deref(), Some("Change the text"));
}

#[test]
fn escape_in_a_drag_puts_everything_back() {
    let mut s = stage("HO");
    let before = work(&s);
    let down = at(&s, PointerPhase::Down, 1000.0, 350.0);
    let to = at(&s, PointerPhase::Move, 700.0, 350.0);
    s.pointer(&down);
    assert!(s.pointer(&to));
    assert!(s.state().in_gesture);
    assert_eq!(s.run(Command::Undo), Err(Refuse::InGesture));
    s.run(Command::Cancel).unwrap();
    assert_eq!(work(&s), before);
    // The button is still held: its moves and its release do nothing more.
    assert!(!s.pointer(&to));
    assert_eq!(work(&s), before);
}

#[test]
fn a_moved_letter_lies_over_the_others_and_is_hit_first() {
    let mut s = stage("HOI");
    s.run(place(2, 350.0)).unwrap();
    s.run(place(0, 400.0)).unwrap();
    let at = |s: &Stage, x: f64, y: f64| {
        let standings = s.standings();
        hit::letter_at(&standings, Point::new(x, y), 2.0).map(|i| standings[i].item.id)
    };
    // H's stem 450..550 lies over I's 400..500; I shows beside it.
    assert_eq!(at(&s, 475.0, 600.0), Some(0));
    assert_eq!(at(&s, 425.0, 600.0), Some(2));
    // In H's counter O's ink shows; where nothing does, H's box is uppermost.
    assert_eq!(at(&s, 800.0, 500.0), Some(1));
    assert_eq!(at(&s, 700.0, 600.0), Some(0));
    assert_eq!(at(&s, 700.0, 900.0), None);
}

#[test]
fn a_letter_is_hit_in_its_white_too() {
    let s = stage("HO");
    let standings = s.standings();
    assert_eq!(
        hit::letter_at(&standings, Point::new(300.0, 600.0), 0.0),
        Some(0)
    );
    assert_eq!(
        hit::letter_at(&standings, Point::new(590.0, 600.0), 0.0),
        None
    );
    assert_eq!(
        hit::letter_at(&standings, Point::new(560.0, 600.0), 15.0),
        Some(0)
    );
}

#[test]
fn two_fingers_zoom_about_their_middle() {
    let mut s = stage("HO");
    let finger = |id, phase, x, y| PointerInput {
        phase,
        id,
        x,
        y,
        kind: PointerKind::Touch,
        button: 0,
        shift: false,
        ctrl: false,
        alt: false,
    };
    let before = s.camera();
    let held = before.to_stage(Point::new(600.0, 300.0));
    let start = work(&s);
    s.pointer(&finger(1, PointerPhase::Down, 500.0, 300.0));
    s.pointer(&finger(1, PointerPhase::Move, 480.0, 300.0));
    s.pointer(&finger(1, PointerPhase::Move, 500.0, 300.0));
    s.pointer(&finger(2, PointerPhase::Down, 700.0, 300.0));
    assert_eq!(
        s.state().items[0].moved,
        None,
        "the first finger's drag is given up"
    );
    s.pointer(&finger(1, PointerPhase::Move, 400.0, 300.0));
    s.pointer(&finger(2, PointerPhase::Move, 800.0, 300.0));
    let after = s.camera();
    assert!((after.scale / before.scale - 2.0).abs() < 1e-9);
    assert!((after.to_canvas(held) - Point::new(600.0, 300.0)).hypot() < 1e-6);
    s.pointer(&finger(2, PointerPhase::Up, 800.0, 300.0));
    assert_eq!(s.state().undo.as_deref(), Some("Move the view"));
    s.pointer(&finger(1, PointerPhase::Up, 400.0, 300.0));
    s.run(Command::Undo).unwrap();
    assert_eq!(work(&s), start);
}

#[test]
fn wheel_pans_and_zooms_as_one_step() {
    let mut s = stage("HO");
    let start = work(&s);
    let at = Point::new(300.0, 200.0);
    assert!(s.wheel(0.0, 40.0, at, false));
    assert!(s.wheel(0.0, -100.0, at, true));
    assert!(!s.state().view.fitted);
    s.run(Command::Undo).unwrap();
    assert_eq!(work(&s), start);
    assert!(!s.wheel(f64::NAN, 0.0, at, true));
    assert!(!s.wheel(0.0, 1e9, at, true));
}

#[test]
fn the_calliper_by_pointer_and_by_keys() {
    let mut s = stage("HO");
    s.run(Command::SetTool {
        tool: Tool::Calliper,
    })
    .unwrap();
    drag(&mut s, (0.0, 100.0), (600.0, 104.0));
    let c = s.state().calliper.unwrap();
    assert_eq!(
        (c.from, c.to),
        ([0.0, 100.0], [600.0, 100.0]),
        "snaps level"
    );
    assert_eq!(s.state().undo.as_deref(), Some("Lay the calliper"));
    assert_eq!(s.state().status, "Calliper: ink 100, white 300, ink 100.");
    drag(&mut s, (600.0, 100.0), (300.0, 400.0));
    assert_eq!(s.state().calliper.unwrap().to, [300.0, 400.0], "by its end");
    drag(&mut s, (150.0, 250.0), (160.0, 240.0));
    assert_eq!(
        s.state().calliper.unwrap().from,
        [10.0, 90.0],
        "by its line"
    );
    for (part, from, to) in [
        (CalliperPart::Whole, [10.0, 100.0], [310.0, 400.0]),
        (CalliperPart::To, [10.0, 100.0], [310.0, 410.0]),
        (CalliperPart::From, [10.0, 110.0], [310.0, 410.0]),
    ] {
        s.run(Command::MoveCalliper {
            part,
            right: 0,
            up: 1,
            step: Step::TenUnits,
        })
        .unwrap();
        let c = s.state().calliper.unwrap();
        assert_eq!((c.from, c.to), (from, to), "{part:?}");
    }
    s.run(Command::LiftCalliper).unwrap();
    assert_eq!(s.state().calliper, None);
    let refused = s.run(Command::TurnCalliper { to: Lie::Level });
    assert_eq!(refused, Err(Refuse::NoCalliper));
}

#[test]
fn the_first_calliper_lies_across_what_is_chosen() {
    let mut s = stage("HO");
    choose(&mut s, &[1]);
    let lay = Command::MoveCalliper {
        part: CalliperPart::Whole,
        right: 1,
        up: 0,
        step: Step::Unit,
    };
    s.run(lay).unwrap();
    let c = s.state().calliper.unwrap();
    assert_eq!((c.from, c.to), ([600.0, 250.0], [1400.0, 250.0]));
}
