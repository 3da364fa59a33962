//! One staircase: the next level from the answers so far.

/// Which transformed up-down rule a staircase follows (Levitt 1971, table I).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// Down after two answers of "larger" running, up after one of "not": settles
    /// at 70.7%.
    TwoDownOneUp,
    /// Its mirror image: up after two of "not" running, down after one of
    /// "larger". Settles at 29.3%.
    TwoUpOneDown,
}

impl Rule {
    /// The share of "larger" at which it settles: where the chance of a step up is
    /// that of a step down.
    pub fn settles_at(self) -> f64 {
        match self {
            Self::TwoDownOneUp => 0.5_f64.sqrt(),
            Self::TwoUpOneDown => 1.0 - 0.5_f64.sqrt(),
        }
    }
}

/// Steps, in units of the finest: large ones first, that the place is found
/// soon; the next of these after each turn.
const STEPS: [i32; 3] = [4, 2, 1];

/// One staircase. Levels are counted in finest steps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Staircase {
    rule: Rule,
    level: i32,
    bounds: (i32, i32),
    /// Answers running that call for a step only together.
    running: u8,
    /// The way of the last step.
    way: i32,
    turns: Vec<i32>,
}

impl Staircase {
    /// Starts at a level, never to leave the bounds.
    pub fn new(rule: Rule, start: i32, bounds: (i32, i32)) -> Self {
        Self {
            rule,
            level: start.clamp(bounds.0, bounds.1),
            bounds,
            running: 0,
            way: 0,
            turns: Vec::new(),
        }
    }

    /// The level of the next question.
    pub fn level(&self) -> i32 {
        self.level
    }

    /// Levels at which the staircase turned: its reversals.
    pub fn turns(&self) -> &[i32] {
        &self.turns
    }

    /// Takes an answer; tells whether the staircase turned there.
    pub fn answer(&mut self, larger: bool) -> bool {
        // The answer that must be given twice.
        let slow = larger == (self.rule == Rule::TwoDownOneUp);
        if slow {
            self.running += 1;
            if self.running < 2 {
                return false;
            }
        }
        self.running = 0;
        let way = if larger { -1 } else { 1 };
        let turned = self.way == -way;
        if turned {
            self.turns.push(self.level);
        }
        self.way = way;
        let step = STEPS[self.turns.len().min(STEPS.len() - 1)];
        self.level = (self.level + way * step).clamp(self.bounds.0, self.bounds.1);
        turned
    }

    /// The mean of the levels at the turns in finest steps, an even number of them;
    /// `None` before there are two. Levitt's own estimate of the level settled at.
    pub fn settled(&self) -> Option<f64> {
        // Turns made while the steps were still large say little.
        let late = self.turns.get(STEPS.len() - 1..)?;
        let even = &late[late.len() % 2..];
        let sum: i32 = even.iter().sum();
        (!even.is_empty()).then(|| f64::from(sum) / even.len() as f64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked through by hand after the rule's own wording.
    #[test]
    fn two_of_larger_come_down_and_one_of_not_goes_up() {
        let mut s = Staircase::new(Rule::TwoDownOneUp, 20, (0, 40));
        let mut levels = vec![s.level()];
        for larger in [
            true, true, true, true, false, true, true, false, true, false,
        ] {
            s.answer(larger);
            levels.push(s.level());
        }
        assert_eq!(levels, [20, 20, 16, 16, 12, 14, 14, 13, 14, 14, 15]);
        assert_eq!(s.turns(), [12, 14, 13]);
        assert_eq!(s.settled(), None);
    }

    #[test]
    fn the_mirror_image_mirrors() {
        let mut a = Staircase::new(Rule::TwoDownOneUp, 7, (-50, 50));
        let mut b = Staircase::new(Rule::TwoUpOneDown, -7, (-50, 50));
        for i in 0..60 {
            let larger = i % 3 != 0 || i % 7 == 0;
            assert_eq!(a.answer(larger), b.answer(!larger));
            assert_eq!(a.level(), -b.level());
        }
        // Levitt's table gives 70.7% and 29.3%.
        assert!((100.0 * Rule::TwoDownOneUp.settles_at() - 70.7).abs() < 0.05);
        assert!((100.0 * Rule::TwoUpOneDown.settles_at() - 29.3).abs() < 0.05);
    }

    #[test]
    fn it_never_leaves_its_bounds() {
        let mut s = Staircase::new(Rule::TwoDownOneUp, 99, (0, 10));
        for _ in 0..50 {
            s.answer(false);
            assert!((0..=10).contains(&s.level()));
        }
        for _ in 0..50 {
            s.answer(true);
        }
        assert_eq!(s.level(), 0);
    }
}
