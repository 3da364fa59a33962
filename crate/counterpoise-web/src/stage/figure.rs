//! Figures as they are written on the stage.

/// A length: whole where it is whole to a twentieth, else with one decimal.
pub(crate) fn length(value: f64) -> String {
    let tenths = (value * 10.0).round();
    let text = if tenths % 10.0 == 0.0 {
        format!("{:.0}", tenths / 10.0)
    } else {
        format!("{:.1}", tenths / 10.0)
    };
    minus(text)
}

/// A share as a signed percentage: `+4%`, `−12%`, `0%`.
pub(crate) fn signed_percent(share: f64) -> String {
    let percent = (share * 100.0).round();
    let sign = if percent > 0.0 { "+" } else { "" };
    minus(format!("{sign}{percent:.0}%"))
}

/// With a true minus sign, and without one before nought.
fn minus(text: String) -> String {
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| matches!(b, b'0' | b'.' | b'%')) => rest.to_owned(),
        Some(rest) => format!("\u{2212}{rest}"),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths() {
        for (value, text) in [
            (90.0, "90"),
            (90.04, "90"),
            (90.06, "90.1"),
            (-12.5, "\u{2212}12.5"),
            (-0.01, "0"),
            (0.0, "0"),
        ] {
            assert_eq!(length(value), text);
        }
    }

    #[test]
    fn percentages() {
        for (share, text) in [
            (0.041, "+4%"),
            (-0.12, "\u{2212}12%"),
            (-0.001, "0%"),
            (0.0, "0%"),
        ] {
            assert_eq!(signed_percent(share), text);
        }
    }
}
