//! The kerned pairs: what side bearings alone leave uneven.

use crate::face::Kern;

/// Left letters, right letters, and how much nearer every pair of them stands.
///
/// Letters of one shape are kerned alike, so they are listed together and
/// multiplied out into single pairs.
const GROUPS: &[(&[&str], &[&str], i16)] = &[
    (&["A"], &["V", "W"], -56),
    (&["V", "W"], &["A"], -56),
    (&["A"], &["T"], -56),
    (&["T"], &["A"], -56),
    (&["A"], &["Y"], -72),
    (&["Y"], &["A"], -72),
    (&["A", "R", "K"], &["C", "G", "O", "Q"], -16),
    (&["O", "D", "Q"], &["A", "X"], -16),
    (&["L"], &["T", "V", "Y"], -84),
    (&["L"], &["O", "C", "G", "Q"], -22),
    (&["L"], &["quoteright", "quotedblright"], -90),
    (&["O", "D"], &["T", "V", "Y"], -14),
    (&["T", "V", "Y"], &["O", "C", "G", "Q"], -14),
    (&["P", "F"], &["A"], -62),
    (&["P"], &["a", "e", "o"], -12),
    (&["F"], &["a", "e", "o"], -20),
    (&["T"], &["a", "c", "e", "o", "s"], -78),
    (&["T"], &["m", "n", "p", "r", "u"], -50),
    (&["T"], &["v", "w", "y", "z"], -46),
    (&["V", "W"], &["a", "e", "o"], -40),
    (&["Y"], &["a", "e", "o"], -72),
    (&["R"], &["T", "V", "Y"], -14),
    (&["K"], &["o", "e", "y", "v"], -18),
    (&["v", "w", "y"], &["a", "c", "e", "o"], -8),
    (&["r"], &["a", "c", "d", "e", "o", "q"], -10),
    (&["f"], &["a", "e", "o"], -8),
    (
        &["f"],
        &["quoteright", "quotedblright", "exclam", "question"],
        44,
    ),
    (&["T", "V", "W", "Y", "P", "F"], &["period", "comma"], -80),
    (&["r", "v", "w", "y"], &["period", "comma"], -46),
    (&["quoteleft", "quotedblleft"], &["A"], -70),
    (&["period", "comma"], &["quoteright", "quotedblright"], -40),
];

/// All pairs.
pub(crate) fn pairs() -> Vec<Kern> {
    let pairs = |&(lefts, rights, by): &(&'static [&'static str], &'static [&'static str], i16)| {
        lefts
            .iter()
            .flat_map(move |left| rights.iter().map(move |right| Kern { left, right, by }))
    };
    GROUPS.iter().flat_map(pairs).collect()
}
