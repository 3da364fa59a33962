//! What is seen.

use super::*;

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
