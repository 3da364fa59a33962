use super::command::{
    Alignment, CalliperPart, Choice, Layer, Lie, PointerInput, PointerKind, PointerPhase,
    StageState, Step,
};
use super::testing::{LETTERS, at, drag, place, stage};
use super::*;
use kurbo::Point;

fn x(stage: &Stage, id: ItemId) -> f64 {
    stage.state().items.iter().find(|i| i.id == id).unwrap().x
}

fn ink(stage: &Stage, id: ItemId) -> Rect {
    let standings = stage.standings();
    standings
        .iter()
        .find(|s| s.item.id == id)
        .unwrap()
        .ink
        .unwrap()
}

fn choose(stage: &mut Stage, items: &[ItemId]) {
    let items = items.to_vec();
    stage.run(Command::Select { items }).unwrap();
}

/// What must be the same after all has been undone: everything but the choice
/// and what was said last.
fn work(stage: &Stage) -> StageState {
    let mut state = stage.state();
    for item in &mut state.items {
        item.selected = false;
    }
    StageState {
        undo: None,
        redo: None,
        status: String::new(),
        ..state
    }
}

#[test]
fn a_font_brings_letters_with_it() {
    let mut s = Stage::default();
    assert_eq!(s.run(Command::Fit), Err(Refuse::NoFont));
    s.set_sorts(testing::sorts());
    assert_eq!(s.state().text, "HO");
    assert_eq!(s.state().undo, None);
}

#[test]
fn another_font_keeps_the_text() {
    let mut s = stage("HIn");
    choose(&mut s, &[1]);
    s.run(Command::Mirror).unwrap();
    s.set_sorts(testing::sorts());
    let state = s.state();
    assert_eq!(state.text, "HIn");
    assert!(state.items[1].mirrored);
    assert_eq!((state.undo, state.redo), (None, None));
}

#[test]
fn what_the_font_lacks_leaves_a_named_gap() {
    let s = stage("HßI");
    let state = s.state();
    assert_eq!(state.missing, ["ß"]);
    assert_eq!(state.items[1].glyph, None);
    assert_eq!(state.items[1].label, "ß");
    assert_eq!(x(&s, 2), 600.0 + 500.0);
    assert_eq!(state.status, "The font has no ß.");
}

#[test]
fn line_ends_and_joiners_do_not_stand_on_the_line() {
    assert_eq!(stage("H\n\u{200D}I\t\u{FEFF}").state().text, "HI");
}

#[test]
fn glyphs_without_a_character_can_be_added() {
    let mut s = stage("H");
    let letters = vec![Choice::Glyph(4), Choice::Text("In".to_owned())];
    s.run(Command::Insert {
        letters,
        after: None,
    })
    .unwrap();
    let state = s.state();
    assert_eq!(state.text, "H\u{FFFC}In");
    assert_eq!(state.items[1].label, "ring");
    let chosen: Vec<bool> = state.items.iter().map(|i| i.selected).collect();
    assert_eq!(chosen, [false, true, true, true]);
    // The text field gives the sign back: the glyph stays.
    s.run(Command::SetText {
        text: "H\u{FFFC}I".to_owned(),
    })
    .unwrap();
    assert_eq!(s.state().items[1].glyph, Some(4));
}

#[test]
fn a_glyph_that_is_not_there_is_refused_and_nothing_is_added() {
    let mut s = stage("H");
    let before = work(&s);
    let letters = vec![Choice::Text("I".to_owned()), Choice::Glyph(999)];
    let refused = s.run(Command::Insert {
        letters,
        after: None,
    });
    assert_eq!(refused, Err(Refuse::NoSuchGlyph(999)));
    assert_eq!(work(&s), before);
}

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
fn typing_is_undone_word_by_word() {
    let mut s = stage("");
    for end in 1..=5 {
        let text = "HI On"[..end].to_owned();
        s.run(Command::SetText { text }).unwrap();
    }
    for text in ["HI ", "HI", ""] {
        s.run(Command::Undo).unwrap();
        assert_eq!(s.state().text, text);
    }
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
fn doubling_and_taking_off() {
    let mut s = stage("HOn");
    choose(&mut s, &[0, 2]);
    s.run(Command::Duplicate).unwrap();
    let state = s.state();
    assert_eq!(state.text, "HHOnn");
    let chosen: Vec<ItemId> = state
        .items
        .iter()
        .filter(|i| i.selected)
        .map(|i| i.id)
        .collect();
    assert_eq!(chosen, [3, 4]);
    s.run(Command::Remove).unwrap();
    assert_eq!(s.state().text, "HOn");
    assert_eq!(s.run(Command::Remove), Err(Refuse::NothingChosen));
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

#[test]
fn tab_goes_round_the_line() {
    let mut s = stage("HOI");
    let chosen = |s: &Stage| s.chosen.clone();
    let next = |backwards, extend| Command::SelectNext { backwards, extend };
    for (command, want) in [
        (next(false, false), vec![0]),
        (next(true, false), vec![2]),
        (next(false, true), vec![2, 0]),
        (next(false, true), vec![2, 0, 1]),
        (Command::Cancel, vec![]),
    ] {
        s.run(command).unwrap();
        assert_eq!(chosen(&s), want);
    }
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
fn a_fitted_view_follows_the_text_and_one_chosen_by_hand_does_not() {
    let mut s = stage("H");
    let fitted = s.state().view;
    s.run(Command::SetText {
        text: "HHHHHHHH".to_owned(),
    })
    .unwrap();
    assert!(s.state().view.scale < fitted.scale);
    s.run(Command::Zoom {
        factor: 2.0,
        at: None,
    })
    .unwrap();
    let by_hand = s.state().view;
    s.run(Command::SetText {
        text: "H".to_owned(),
    })
    .unwrap();
    assert_eq!(s.state().view, by_hand);
    s.run(Command::Fit).unwrap();
    assert_eq!(s.state().view, fitted);
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

/// A generator good enough to choose commands: xorshift.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u32) -> u32 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        ((self.0 >> 33) % u64::from(sides)) as u32
    }

    fn number(&mut self) -> f64 {
        const ODD: [f64; 9] = [
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::MAX,
            f64::MIN_POSITIVE,
            -0.0,
            1e7,
            -1e6,
            1e15,
        ];
        match self.roll(8) {
            0 => ODD[self.roll(9) as usize],
            1 => f64::from(self.roll(1000)) / 1000.0,
            _ => f64::from(self.roll(3000)) - 1000.0,
        }
    }

    fn text(&mut self) -> String {
        let letters: Vec<char> = LETTERS.chars().chain("ßé\u{FFFC}".chars()).collect();
        let length = self.roll(8);
        (0..length)
            .map(|_| letters[self.roll(letters.len() as u32) as usize])
            .collect()
    }

    fn id(&mut self, stage: &Stage) -> ItemId {
        match stage.scene.items.len() {
            0 => 7,
            n if self.roll(6) > 0 => stage.scene.items[self.roll(n as u32) as usize].id,
            _ => self.roll(40),
        }
    }

    fn step(&mut self) -> Step {
        [Step::Unit, Step::TenUnits, Step::TenthEm][self.roll(3) as usize]
    }

    fn steps(&mut self) -> i32 {
        if self.roll(20) == 0 {
            i32::MIN
        } else {
            self.roll(9) as i32 - 4
        }
    }

    fn command(&mut self, stage: &Stage) -> Command {
        let yes = self.roll(2) == 0;
        match self.roll(28) {
            0 | 1 => Command::SetText { text: self.text() },
            2 => Command::Insert {
                letters: vec![
                    Choice::Text(self.text()),
                    Choice::Glyph(self.roll(9) as u16),
                ],
                after: yes.then(|| self.id(stage)),
            },
            3 => Command::Duplicate,
            4 => Command::Remove,
            5..=7 => Command::Select {
                items: (0..self.roll(4)).map(|_| self.id(stage)).collect(),
            },
            8 => Command::SelectNext {
                backwards: yes,
                extend: self.roll(2) == 0,
            },
            9 | 10 => Command::Nudge {
                steps: self.steps(),
                step: self.step(),
            },
            11 => Command::Place {
                item: self.id(stage),
                x: self.number(),
            },
            12 => Command::Align {
                by: [
                    Alignment::LeftEdge,
                    Alignment::StemLeft,
                    Alignment::StemCentre,
                    Alignment::InkCentre,
                    Alignment::RightEdge,
                ][self.roll(5) as usize],
            },
            13 => Command::ResetPlaces,
            14 => Command::Pin { pinned: yes },
            15 => Command::Mirror,
            16 => Command::Turn,
            17 => Command::ShowLayer {
                layer: [Layer::Fill, Layer::Points, Layer::Strip][self.roll(3) as usize],
                shown: yes,
            },
            18 => Command::SetBlur {
                share: self.number(),
            },
            19 => Command::SetReading {
                sizes: (0..self.roll(8)).map(|_| self.number()).collect(),
            },
            20 => Command::LayCalliper {
                from: [self.number(), self.number()],
                to: [self.number(), self.number()],
            },
            21 | 22 => Command::MoveCalliper {
                part: [CalliperPart::Whole, CalliperPart::From, CalliperPart::To]
                    [self.roll(3) as usize],
                right: self.steps(),
                up: self.steps(),
                step: self.step(),
            },
            23 => Command::TurnCalliper {
                to: if yes { Lie::Level } else { Lie::Upright },
            },
            24 => Command::Pan {
                dx: self.number(),
                dy: self.number(),
            },
            25 => Command::Zoom {
                factor: self.number(),
                at: yes.then(|| [self.number(), self.number()]),
            },
            26 => Command::FitChosen,
            _ => Command::Fit,
        }
    }

    fn event(&mut self) -> PointerInput {
        PointerInput {
            phase: [
                PointerPhase::Down,
                PointerPhase::Move,
                PointerPhase::Move,
                PointerPhase::Up,
                PointerPhase::Cancel,
            ][self.roll(5) as usize],
            id: self.roll(3) as i32,
            x: self.number(),
            y: self.number(),
            kind: [PointerKind::Mouse, PointerKind::Pen, PointerKind::Touch][self.roll(3) as usize],
            button: self.roll(4) as i16 - 1,
            shift: self.roll(4) == 0,
            ctrl: self.roll(4) == 0,
            alt: self.roll(4) == 0,
        }
    }
}

/// Whatever stands on the stage is somewhere.
fn check_sane(stage: &Stage) {
    let state = stage.state();
    for item in &state.items {
        assert!(item.x.is_finite() && item.x.abs() <= scene::FAR);
    }
    assert!(state.view.scale > 0.0 && state.view.scale.is_finite());
    assert!(state.view.origin.iter().all(|v| v.is_finite()));
    let mut ids: Vec<ItemId> = state.items.iter().map(|i| i.id).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), state.items.len(), "numbers are not used twice");
}

#[test]
fn any_sequence_is_undone_to_its_start_and_redone_to_its_end() {
    for seed in 1..200_u64 {
        let mut dice = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
        let mut s = stage("HOn");
        // The text is where the sequence starts, not a step of it.
        s.history = History::default();
        let start = work(&s);
        for _ in 0..40 {
            if dice.roll(3) == 0 {
                s.pointer(&dice.event());
            } else {
                let before = work(&s);
                let in_gesture = s.gestures.under_way();
                let command = dice.command(&s);
                if s.run(command.clone()).is_err() && !in_gesture {
                    assert_eq!(
                        work(&s),
                        before,
                        "{command:?} was refused but changed something"
                    );
                }
            }
            check_sane(&s);
        }
        s.finish_gesture();
        let end = work(&s);
        let tool_and_status_apart = |s: &Stage| StageState {
            tool: Tool::Letters,
            ..work(s)
        };
        let mut steps = 0;
        while s.run(Command::Undo).is_ok() {
            check_sane(&s);
            steps += 1;
        }
        assert_eq!(tool_and_status_apart(&s), start, "seed {seed}");
        for _ in 0..steps {
            s.run(Command::Redo).unwrap();
        }
        assert_eq!(s.run(Command::Redo), Err(Refuse::NothingToRedo));
        assert_eq!(work(&s), end, "seed {seed}");
    }
}

#[test]
fn numbers_that_are_none_are_refused() {
    let odd = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX];
    for x in odd {
        let mut s = stage("HO");
        let before = work(&s);
        for command in [
            place(0, x),
            Command::SetBlur { share: x },
            Command::SetReading { sizes: vec![x] },
            Command::LayCalliper {
                from: [0.0, x],
                to: [1.0, 1.0],
            },
        ] {
            assert!(s.run(command.clone()).is_err(), "{command:?}");
        }
        for factor in [0.0, -2.0, x] {
            let refused = s.run(Command::Zoom { factor, at: None }).is_err();
            assert!(refused || factor == f64::MAX);
        }
        assert_eq!(work(&s).items, before.items);
        assert_eq!(work(&s).calliper, None);
    }
}

#[test]
fn a_line_of_too_many_letters_is_refused() {
    let mut s = stage("HO");
    let text = "H".repeat(scene::MOST_LETTERS + 1);
    let refused = s.run(Command::SetText { text });
    assert_eq!(refused, Err(Refuse::TooManyLetters(scene::MOST_LETTERS)));
    let text = "H".repeat(scene::MOST_LETTERS);
    s.run(Command::SetText { text }).unwrap();
    s.run(Command::SelectAll).unwrap();
    let refused = s.run(Command::Duplicate);
    assert_eq!(refused, Err(Refuse::TooManyLetters(scene::MOST_LETTERS)));
}
