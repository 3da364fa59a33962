//! Whatever comes: any commands and events in any order, and numbers that are none.

use super::*;
use counterpoise::report::Cause;

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
        match self.roll(29) {
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
                layer: [
                    Layer::Fill,
                    Layer::Points,
                    Layer::Strip,
                    Layer::Widths,
                    Layer::Refit,
                    Layer::Texture,
                    Layer::White,
                ][self.roll(7) as usize],
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
            27 => Command::StandFinding {
                finding: FindingKey {
                    glyph: self.roll(6) as u16,
                    cause: [Cause::Width, Cause::Strokes, Cause::Left][self.roll(3) as usize],
                },
            },
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
