//! Stems against StdVW over the panel of faces.

use crate::Fonts;
use counterpoise_checks::manifest::{self, Use};
use counterpoise_checks::panel::{self, Reason, Row};
use counterpoise_checks::place;
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let faces = manifest::faces_for(Use::Panel)?;
    let faces = faces.into_iter().map(|(_, face)| face).collect();
    let mut all = vec![Trial::test(
        "panel::a share under the bar fails",
        the_bar_can_fail,
    )];
    all.push(fonts.check("panel::stems against StdVW".into(), faces, |_| whole()));
    Ok(all)
}

fn whole() -> Result<(), Failed> {
    let rows = panel::rows()?;
    println!("{}", panel::summary(&rows));
    judge(&rows)?;
    let written = std::fs::read_to_string(place::reference().join("stem-panel.md"))?;
    if !written.contains(&panel::summary(&rows)) {
        return Err("stem-panel.md says something else: run `cargo run -p counterpoise-checks --bin stem-panel` \
                    and look at what changed"
            .into());
    }
    Ok(())
}

fn judge(rows: &[Row]) -> Result<(), Failed> {
    let upright = rows.iter().filter(|r| !r.slanted);
    let (count, share) = (upright.clone().count(), panel::share(upright));
    if count < panel::FEWEST {
        return Err(format!("only {count} upright faces, {} make a panel", panel::FEWEST).into());
    }
    if share < panel::BAR {
        return Err(format!(
            "{share:.3} of {count} upright faces agree, {} must",
            panel::BAR
        )
        .into());
    }
    Ok(())
}

/// The judgement itself must be able to say no.
fn the_bar_can_fail() -> Result<(), Failed> {
    let row = |miss: Option<Reason>| Row {
        id: "a".into(),
        package: "b".into(),
        slanted: false,
        std_vw: 80.0,
        std_hw: None,
        capital: None,
        lower: None,
        bar: None,
        scan_capital: None,
        scan_lower: None,
        miss,
    };
    let panel = |hits: usize, misses: usize| -> Vec<Row> {
        let hits = std::iter::repeat_n(row(None), hits);
        hits.chain(std::iter::repeat_n(row(Some(Reason::Stale)), misses))
            .collect()
    };
    if judge(&panel(85, 15)).is_err() {
        return Err("85 of 100 were not enough".into());
    }
    if judge(&panel(84, 16)).is_ok() || judge(&panel(59, 0)).is_ok() {
        return Err("84 of 100, or 59 faces, were enough".into());
    }
    Ok(())
}
