//! Stations that follow on from each other.

use super::station::{Station, Walk};

/// The most a stroke's direction may turn from one station to the next
/// (cosine of 60 degrees): a tight curl still holds together, a corner does not.
const SHARPEST: f64 = 0.5;

/// The most that thickness may change for each unit of way. Edges 32 degrees
/// apart change it by 0.57; a ray that slips from the far edge to another
/// stroke's changes it at once.
const STEEPEST: f64 = 0.6;

/// A station this much thicker than those beside it stands in a fork, where
/// one stroke parts from another, and tells of neither.
const SPIKE: f64 = 1.3;

/// A run of stations along one edge of the ink.
#[derive(Debug, Clone)]
pub(super) struct Run {
    pub(super) stations: Vec<Station>,
    /// The last station follows on to the first: a ring.
    pub(super) closed: bool,
    /// Whether the first and the last station end the ink's own run, and not
    /// a stretch cut from it.
    pub(super) free: (bool, bool),
    /// Way before the first station and after the last that belongs to a
    /// stretch cut from a longer run.
    pub(super) lead: (f64, f64),
}

/// Gathers the stations of every walk into runs.
pub(super) fn runs(walks: &[Walk]) -> Vec<Run> {
    walks
        .iter()
        .flat_map(|w| of_walk(&w.stations))
        .map(without_spikes)
        .collect()
}

fn without_spikes(run: Run) -> Run {
    let (s, n) = (&run.stations, run.stations.len());
    if n < 3 {
        return run;
    }
    let beside = |i: usize| -> f64 {
        let before = if i > 0 || run.closed {
            s[(i + n - 1) % n].thickness
        } else {
            0.0
        };
        let after = if i + 1 < n || run.closed {
            s[(i + 1) % n].thickness
        } else {
            0.0
        };
        before.max(after)
    };
    let is_spike = |i: usize| s[i].thickness > SPIKE * beside(i);
    if !(0..n).any(is_spike) {
        return run;
    }
    let stations = (0..n).filter(|&i| !is_spike(i)).map(|i| s[i]).collect();
    Run { stations, ..run }
}

fn of_walk(stations: &[Option<Station>]) -> Vec<Run> {
    let n = stations.len();
    let follows: Vec<bool> = (0..n)
        .map(|i| match (&stations[i], &stations[(i + 1) % n]) {
            (Some(a), Some(b)) => n > 1 && follow(a, b),
            _ => false,
        })
        .collect();
    // Begin after a break, so that no run is cut by the walk's own start.
    let Some(first) = (0..n).find(|&i| !follows[(i + n - 1) % n]) else {
        return if n == 0 {
            Vec::new()
        } else {
            vec![Run {
                stations: stations.iter().flatten().copied().collect(),
                closed: true,
                free: (false, false),
                lead: (0.0, 0.0),
            }]
        };
    };
    let mut runs = Vec::new();
    let mut from = 0;
    while from < n {
        let to = (from..n).find(|k| !follows[(first + k) % n]);
        let past = to.map_or(n, |k| k + 1);
        let run = (from..past).map(|k| stations[(first + k) % n]);
        // What follows on is there, so only a place without a stroke gives nothing.
        if let Some(stations) = run.collect::<Option<Vec<Station>>>() {
            runs.push(Run {
                stations,
                closed: false,
                free: (true, true),
                lead: (0.0, 0.0),
            });
        }
        from = past;
    }
    runs
}

/// Whether `b` is the same stroke a little further on.
fn follow(a: &Station, b: &Station) -> bool {
    let near = (b.near.point - a.near.point).hypot();
    let far = (b.far.point - a.far.point).hypot();
    let middle = (b.centre() - a.centre()).hypot();
    let way = near.max(far);
    // The far edge moves the same way, and not by leaps.
    a.along.dot(b.along) > SHARPEST
        && (b.thickness - a.thickness).abs() <= STEEPEST * middle + 0.03 * a.thickness
        && way <= 4.0 * near.min(far) + a.thickness
        && (b.far.point - a.far.point).dot(a.along + b.along) >= -0.1 * near
}
