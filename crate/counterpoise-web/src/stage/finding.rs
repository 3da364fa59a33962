//! A finding on the stage: its letter between those that it is compared with.

use super::command::FindingKey;
use super::history::Run;
use super::scene::View;
use super::{Done, Stage};
use crate::refuse::Refuse;
use counterpoise::report::{Deviation, FindingReport, JudgementReport};

impl Stage {
    /// Sets the line anew with a finding's letter between its comparison letters.
    pub(super) fn stand_finding(&mut self, finding: FindingKey) -> Result<Done, Refuse> {
        let found = self.found(finding).ok_or(Refuse::NoSuchFinding)?;
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

    /// The finding that stands on the stage.
    pub(crate) fn finding(&self) -> Option<&FindingReport> {
        let found = self.found(self.scene.setting.finding?)?;
        let on_the_line = |glyph| self.scene.items.iter().any(|i| i.glyph == Some(glyph));
        on_the_line(found.glyph).then_some(found)
    }

    /// A finding of the judgement; what is meant so is one too.
    fn found(&self, finding: FindingKey) -> Option<&FindingReport> {
        let judgement = self.judgement.as_ref()?;
        let mut all = judgement.findings.iter().chain(&judgement.meant);
        all.find(|f| key(f) == finding)
    }

    /// Takes how the font's letters are judged from now on.
    pub(crate) fn set_judgement(&mut self, judgement: JudgementReport) {
        self.judgement = Some(judgement);
        self.touch();
    }

    /// How a letter stands to the others, if the font has been judged.
    pub(crate) fn deviations(&self, glyph: u16) -> &[Deviation] {
        let letters = self.judgement.as_ref().map_or(&[][..], |j| &j.letters);
        let own = letters.iter().find(|l| l.glyph == glyph);
        own.map_or(&[], |l| &l.deviations)
    }

    /// Marks findings under their letters, numbered in this order.
    pub(crate) fn mark_findings(&mut self, findings: &[FindingKey]) {
        findings.clone_into(&mut self.marked);
        self.touch();
    }

    /// The marked findings with their numbers, from 1.
    pub(crate) fn marked(&self) -> Vec<(usize, &FindingReport)> {
        let found = self.marked.iter().map(|finding| self.found(*finding));
        let numbered = found.enumerate();
        numbered.filter_map(|(i, f)| Some((i + 1, f?))).collect()
    }
}

/// What a finding is known by.
pub(super) fn key(found: &FindingReport) -> FindingKey {
    FindingKey {
        glyph: found.glyph,
        cause: found.cause,
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
    use counterpoise::report::Cause;

    /// The findings of the tests' face, in their order.
    const FOUND: [FindingKey; 3] = [
        of(3, Cause::Width),
        of(2, Cause::Strokes),
        of(5, Cause::Left),
    ];

    const fn of(glyph: u16, cause: Cause) -> FindingKey {
        FindingKey { glyph, cause }
    }

    fn stand(stage: &mut Stage, finding: usize) {
        let finding = FOUND[finding];
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
            assert_eq!(state.finding, Some(FOUND[finding]));
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
        assert_eq!(stage.state().finding, Some(FOUND[0]));
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
        assert_eq!(stage.state().finding, Some(FOUND[0]));
        for text in ["HOH", "LOL"].map(str::to_owned) {
            stage.run(Command::SetText { text }).unwrap();
            assert_eq!(stage.state().finding, None);
        }
    }

    #[test]
    fn a_finding_that_there_is_not_is_refused() {
        let mut stage = stage("HOH");
        let finding = of(3, Cause::Left);
        let refused = stage.run(Command::StandFinding { finding });
        assert_eq!(refused.unwrap_err().code(), "no-such-finding");
        assert_eq!(stage.state().text, "HOH");
    }

    #[test]
    fn a_finding_stays_when_more_is_found() {
        let mut stage = stage("HOH");
        stand(&mut stage, 0);
        let mut judgement = stage.judgement.clone().unwrap();
        judgement
            .findings
            .insert(0, crate::stage::testing::finding('O', "H", Cause::Points));
        stage.set_judgement(judgement);
        assert_eq!(stage.state().finding, Some(FOUND[0]));
    }

    #[test]
    fn marks_are_numbered_in_the_order_given() {
        let mut stage = stage("HOH");
        stage.mark_findings(&[FOUND[2], of(9, Cause::Width), FOUND[0]]);
        let marked = stage.marked();
        let told: Vec<_> = marked
            .iter()
            .map(|(n, f)| (*n, f.letter.as_str()))
            .collect();
        assert_eq!(told, [(1, "n"), (3, "L")]);
    }
}
