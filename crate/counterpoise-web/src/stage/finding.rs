//! A finding on the stage: its letter between those that it is compared with.

use super::history::Run;
use super::scene::View;
use super::sorts::Sorts;
use super::{Done, Stage};
use crate::refuse::Refuse;
use counterpoise::report::FindingReport;

impl Stage {
    /// Sets the line anew with a finding's letter between its comparison letters.
    pub(super) fn stand_finding(&mut self, finding: u16) -> Result<Done, Refuse> {
        let sorts = self.sorts()?;
        let found = sorts.judgement().findings.get(usize::from(finding));
        let found = found.ok_or(Refuse::NoSuchFinding)?;
        let (letter, glyph) = (found.letter.clone(), found.glyph);
        let (before, after) = around(&found.beside);
        let mut items = self.cast_characters(&before)?;
        let own = self.cast_new(letter.chars().next(), Some(glyph))?;
        items.push(own);
        items.extend(self.cast_characters(&after)?);
        let others: Vec<_> = items
            .iter()
            .map(|i| i.id)
            .filter(|i| *i != own.id)
            .collect();
        self.scene.items = items;
        self.scene.setting.start = 0.0;
        self.scene.setting.finding = Some(finding);
        self.scene.setting.view = View::Fit(self.extent());
        self.chosen = vec![own.id];
        let names = match others.as_slice() {
            [] => "alone".to_owned(),
            // One comparison letter stands on both sides.
            [one, other] if self.name(*one) == self.name(*other) => {
                format!("between two letters {}", self.name(*one))
            }
            others => format!("among {}", self.names(others)),
        };
        let done = Done::new(
            format!("Stand {letter} {names}"),
            format!("{letter} stands {names}. Undo brings your line back."),
        );
        Ok(done.in_run(Run::Finding))
    }

    /// Lets go of a finding whose letter is no longer on the line.
    pub(super) fn keep_finding(&mut self) {
        if self.finding().is_none() {
            self.scene.setting.finding = None;
        }
    }

    /// The finding that stands on the stage, with its place in the list.
    pub(crate) fn finding(&self) -> Option<(u16, &FindingReport)> {
        let index = self.scene.setting.finding?;
        let sorts = self.sorts.as_ref()?;
        let found = sorts.judgement().findings.get(usize::from(index))?;
        let on_the_line = |glyph| self.scene.items.iter().any(|i| i.glyph == Some(glyph));
        on_the_line(found.glyph).then_some((index, found))
    }

    /// Marks findings under their letters, numbered in this order.
    pub(crate) fn mark_findings(&mut self, findings: &[u16]) {
        findings.clone_into(&mut self.marked);
        self.touch();
    }

    /// The marked findings with their numbers, from 1.
    pub(crate) fn marked(&self) -> Vec<(usize, &FindingReport)> {
        let Some(judged) = self.sorts.as_ref().and_then(Sorts::judged) else {
            return Vec::new();
        };
        let all = &judged.findings;
        let found = self.marked.iter().map(|index| all.get(usize::from(*index)));
        let numbered = found.enumerate();
        numbered.filter_map(|(i, f)| Some((i + 1, f?))).collect()
    }
}

/// The comparison letters before a letter and after it, so that it has a
/// neighbour on each side.
fn around(beside: &str) -> (Vec<char>, Vec<char>) {
    let all: Vec<char> = beside.chars().collect();
    match all.as_slice() {
        [] => (Vec::new(), Vec::new()),
        [one] => (vec![*one], vec![*one]),
        [first, rest @ ..] => (vec![*first], rest.to_vec()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::command::{Command, Step};
    use crate::stage::testing::stage;

    fn stand(stage: &mut Stage, finding: u16) {
        stage.run(Command::StandFinding { finding }).unwrap();
    }

    fn chosen(stage: &Stage) -> Vec<String> {
        let items = stage.state().items;
        let chosen = items.into_iter().filter(|i| i.selected);
        chosen.map(|i| i.label).collect()
    }

    #[test]
    fn the_letter_has_a_neighbour_on_each_side() {
        let mut stage = stage("HOH");
        for (finding, text, letter) in [(0, "HLIO", "L"), (1, "HIH", "I"), (2, "n", "n")] {
            stand(&mut stage, finding);
            let state = stage.state();
            assert_eq!(state.text, text);
            assert_eq!(state.finding, Some(finding));
            assert!(state.view.fitted);
            assert_eq!(chosen(&stage), [letter]);
        }
    }

    #[test]
    fn findings_looked_through_are_one_step_back() {
        let mut stage = stage("HOH");
        for finding in [0, 1, 2, 0] {
            stand(&mut stage, finding);
        }
        assert_eq!(
            stage.state().undo.as_deref(),
            Some("Stand L among H, I and O")
        );
        stage.run(Command::Undo).unwrap();
        assert_eq!(stage.state().text, "HOH");
        assert_eq!(stage.state().finding, None);
        stage.run(Command::Redo).unwrap();
        assert_eq!(stage.state().text, "HLIO");
        assert_eq!(stage.state().finding, Some(0));
    }

    #[test]
    fn work_between_two_findings_is_a_step_of_its_own() {
        let mut stage = stage("HOH");
        stand(&mut stage, 0);
        let (steps, step) = (3, Step::TenUnits);
        stage.run(Command::Nudge { steps, step }).unwrap();
        stand(&mut stage, 1);
        stage.run(Command::Undo).unwrap();
        assert_eq!(stage.state().text, "HLIO");
        assert!(stage.state().items[1].moved.is_some());
    }

    #[test]
    fn a_finding_goes_when_its_letter_does() {
        let mut stage = stage("HOH");
        stand(&mut stage, 0);
        let text = "LOL".to_owned();
        stage.run(Command::SetText { text }).unwrap();
        assert_eq!(stage.state().finding, Some(0));
        for text in ["HOH", "LOL"].map(str::to_owned) {
            stage.run(Command::SetText { text }).unwrap();
            assert_eq!(stage.state().finding, None);
        }
    }

    #[test]
    fn a_finding_that_there_is_not_is_refused() {
        let mut stage = stage("HOH");
        let refused = stage.run(Command::StandFinding { finding: 3 });
        assert_eq!(refused.unwrap_err().code(), "no-such-finding");
        assert_eq!(stage.state().text, "HOH");
    }

    #[test]
    fn marks_are_numbered_in_the_order_given() {
        let mut stage = stage("HOH");
        stage.mark_findings(&[2, 9, 0]);
        let marked = stage.marked();
        let told: Vec<_> = marked
            .iter()
            .map(|(n, f)| (*n, f.letter.as_str()))
            .collect();
        assert_eq!(told, [(1, "n"), (3, "L")]);
    }
}
