//! One trial: which question comes next, and what has been answered.

use super::{Answers, Fit, Random, Rule, Staircase, fit};

/// Questions of a trial: about three minutes at three seconds each.
pub const LENGTH: usize = 60;

/// Staircases start in the outer part of the scale, this share of it.
const OUTER: f64 = 0.25;

/// The levels that can be shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// The lowest level.
    pub least: f64,
    /// The highest.
    pub most: f64,
    /// The finest step between two.
    pub step: f64,
}

impl Scale {
    fn steps(&self) -> i32 {
        ((self.most - self.least) / self.step).round() as i32
    }

    /// The level so many steps up.
    pub fn level(&self, steps: f64) -> f64 {
        self.least + self.step * steps
    }
}

/// A question.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// Which of the two staircases asks.
    pub staircase: usize,
    /// How much larger the one thing is drawn.
    pub level: f64,
    /// Whether it stands second: the sides change by lot.
    pub second: bool,
}

/// A question with its answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Answer {
    /// What was asked.
    pub question: Question,
    /// Whether the thing in question was said to look the larger.
    pub larger: bool,
    /// Whether its staircase turned there.
    pub turned: bool,
}

/// A trial of [`LENGTH`] questions.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    scale: Scale,
    random: Random,
    staircases: [Staircase; 2],
    asked: Option<Question>,
    answers: Vec<Answer>,
}

impl Trial {
    /// Sets a trial up.
    pub fn new(scale: Scale, seed: u64) -> Self {
        let mut random = Random::new(seed);
        let steps = scale.steps();
        let outer = (f64::from(steps) * OUTER) as u32;
        let mut start = |rule| {
            let inwards = random.up_to(outer) as i32;
            let from = match rule {
                Rule::TwoDownOneUp => steps - inwards,
                Rule::TwoUpOneDown => inwards,
            };
            Staircase::new(rule, from, (0, steps))
        };
        let staircases = [start(Rule::TwoDownOneUp), start(Rule::TwoUpOneDown)];
        Self {
            scale,
            random,
            staircases,
            asked: None,
            answers: Vec::new(),
        }
    }

    /// The next question; `None` when all have been answered. Asked twice without
    /// an answer between, it is the same one.
    pub fn question(&mut self) -> Option<Question> {
        if self.answers.len() >= LENGTH {
            return None;
        }
        if self.asked.is_none() {
            // Each is asked half of the questions, in an order that nobody can guess.
            let of = |i| {
                self.answers
                    .iter()
                    .filter(|a| a.question.staircase == i)
                    .count()
            };
            let left = [0, 1].map(|i| LENGTH / 2 - of(i));
            let total = (left[0] + left[1]) as f64;
            let staircase = usize::from(self.random.share() * total >= left[0] as f64);
            self.asked = Some(Question {
                staircase,
                level: self
                    .scale
                    .level(f64::from(self.staircases[staircase].level())),
                second: self.random.coin(),
            });
        }
        self.asked
    }

    /// Answers the question that was asked; nothing happens if none was.
    pub fn answer(&mut self, larger: bool) {
        if let Some(question) = self.asked.take() {
            let turned = self.staircases[question.staircase].answer(larger);
            self.answers.push(Answer {
                question,
                larger,
                turned,
            });
        }
    }

    /// What has been answered, in order.
    pub fn answers(&self) -> &[Answer] {
        &self.answers
    }

    /// The levels at which either staircase settled, the mean of its turns.
    pub fn settled(&self) -> [Option<f64>; 2] {
        let of = |s: &Staircase| s.settled().map(|steps| self.scale.level(steps));
        [of(&self.staircases[0]), of(&self.staircases[1])]
    }

    /// The answers level by level, from the lowest up.
    pub fn by_level(&self) -> Vec<Answers> {
        let mut all: Vec<Answers> = Vec::new();
        for a in &self.answers {
            let larger = u32::from(a.larger);
            match all.iter_mut().find(|l| l.level == a.question.level) {
                Some(l) => {
                    l.asked += 1;
                    l.larger += larger;
                }
                None => all.push(Answers {
                    level: a.question.level,
                    asked: 1,
                    larger,
                }),
            }
        }
        crate::order::by_number(&mut all, |a| a.level);
        all
    }

    /// The curve through them.
    pub fn fit(&self) -> Option<Fit> {
        let Scale { least, most, step } = self.scale;
        fit(&self.by_level(), step, (least, most))
    }
}
