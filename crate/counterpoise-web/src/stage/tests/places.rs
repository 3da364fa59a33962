//! Where letters stand, and which way round.

use super::*;

#[test]
fn a_pinned_letter_does_not_move() {
    let mut s = stage("HO");
    choose(&mut s, &[0]);
    s.run(Command::Pin { pinned: true }).unwrap();
    drag(&mut s, (100.0, 350.0), (400.0, 350.0));
    assert_eq!(x(&s, 0), 0.0);
    assert!(s.state().status.contains("pinned"));
    choose(&mut s, &[0]);
    let nudge = Command::Nudge {
        steps: 5,
        step: Step::Unit,
    };
    assert_eq!(s.run(nudge), Err(Refuse::Pinned));
    assert_eq!(s.run(place(0, 9.0)), Err(Refuse::Pinned));
    // Nor when letters are typed before it.
    s.run(Command::SetText {
        text: "nnHO".to_owned(),
    })
    .unwrap();
    assert_eq!(x(&s, 0), 0.0);
}

#[test]
fn the_steps_of_keys() {
    let mut s = stage("HO");
    choose(&mut s, &[1]);
    for (step, to) in [
        (Step::Unit, 601.0),
        (Step::TenUnits, 611.0),
        (Step::TenthEm, 711.0),
    ] {
        s.run(Command::Nudge { steps: 1, step }).unwrap();
        assert_eq!(x(&s, 1), to);
    }
    s.run(Command::Undo).unwrap();
    assert_eq!(x(&s, 1), 600.0, "a run of nudges is one step");
}

#[test]
fn runs_end_where_something_else_is_chosen() {
    let mut s = stage("HO");
    let nudge = Command::Nudge {
        steps: 1,
        step: Step::Unit,
    };
    choose(&mut s, &[1]);
    s.run(nudge.clone()).unwrap();
    choose(&mut s, &[0]);
    s.run(nudge).unwrap();
    s.run(Command::Undo).unwrap();
    assert_eq!((x(&s, 0), x(&s, 1)), (0.0, 601.0));
}

#[test]
fn a_run_that_ends_where_it_began_leaves_no_step() {
    let mut s = stage("HO");
    choose(&mut s, &[1]);
    for steps in [1, -1] {
        let step = Step::Unit;
        s.run(Command::Nudge { steps, step }).unwrap();
    }
    assert_eq!(s.state().undo.as_deref(), Some("Change the text"));
}

#[test]
fn alignments() {
    // The middle of O's disc is 400 from its origin, its edges 50 and 750.
    let cases = [
        (Alignment::LeftEdge, 1, 0.0),
        (Alignment::InkCentre, 1, -100.0),
        (Alignment::RightEdge, 1, -200.0),
        (Alignment::StemLeft, 2, 0.0),
        (Alignment::StemCentre, 2, 0.0),
    ];
    for (by, id, to) in cases {
        let mut s = stage("HOI");
        choose(&mut s, &[0]);
        s.run(Command::Pin { pinned: true }).unwrap();
        choose(&mut s, &[id]);
        s.run(Command::Align { by }).unwrap();
        assert_eq!(x(&s, id), to, "{by:?}");
    }
}

#[test]
fn without_a_pin_the_first_chosen_is_the_reference() {
    let mut s = stage("HOI");
    choose(&mut s, &[2, 0]);
    let by = Alignment::StemCentre;
    s.run(Command::Align { by }).unwrap();
    assert_eq!((x(&s, 2), x(&s, 0)), (1400.0, 1400.0));
}

#[test]
fn a_mirrored_letter_is_lined_up_as_it_stands() {
    let mut s = stage("HL");
    choose(&mut s, &[1]);
    s.run(Command::Mirror).unwrap();
    // L's stem, 50..150 of an ink 50..450, is at 350..450 now.
    choose(&mut s, &[0, 1]);
    let by = Alignment::StemLeft;
    s.run(Command::Align { by }).unwrap();
    assert_eq!(x(&s, 1), 50.0 - 350.0);
}

#[test]
fn what_cannot_be_lined_up_says_why() {
    let mut s = stage("HO ");
    let align = |by| Command::Align { by };
    assert_eq!(
        s.run(align(Alignment::LeftEdge)),
        Err(Refuse::NothingChosen)
    );
    choose(&mut s, &[0]);
    assert_eq!(
        s.run(align(Alignment::LeftEdge)),
        Err(Refuse::NothingToAlign)
    );
    choose(&mut s, &[0, 2]);
    let refused = s.run(align(Alignment::LeftEdge));
    assert_eq!(refused, Err(Refuse::NoInk("space".to_owned())));
    choose(&mut s, &[0, 1]);
    let refused = s.run(align(Alignment::StemLeft));
    assert_eq!(refused, Err(Refuse::NoStem("O".to_owned())));
}

#[test]
fn turned_about_half_the_height_and_mirrored_about_the_ink() {
    let mut s = stage("Ln");
    choose(&mut s, &[0]);
    let before = ink(&s, 0);
    s.run(Command::Turn).unwrap();
    assert_eq!(ink(&s, 0), before, "flat letters stay on their lines");
    let standings = s.standings();
    let inked = |x, y| hit::is_ink(&standings[0], Point::new(x, y));
    assert!(inked(440.0, 350.0), "the stem is at the right now");
    assert!(!inked(60.0, 350.0));
    assert!(inked(60.0, 690.0), "the foot is at the top");
    choose(&mut s, &[1]);
    let before = ink(&s, 1);
    s.run(Command::Turn).unwrap();
    assert_eq!(
        ink(&s, 1),
        before,
        "a small letter turns within the x-height"
    );
}

#[test]
fn putting_back() {
    let mut s = stage("HO");
    let before = work(&s);
    s.run(place(1, -300.0)).unwrap();
    choose(&mut s, &[0]);
    s.run(Command::Mirror).unwrap();
    s.run(Command::Turn).unwrap();
    s.run(Command::Cancel).unwrap();
    s.run(Command::ResetPlaces).unwrap();
    assert_eq!(work(&s), before);
}
