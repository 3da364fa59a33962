//! The stage through its commands and events, as the page drives it.

mod any;
mod letters;
mod places;
mod pointer;
mod view;

use super::command::{
    Alignment, CalliperPart, Choice, Layer, Lie, PointerInput, PointerKind, PointerPhase, Step,
};
use super::state::StageState;
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
