//! Points that a variation leaves out, moved along with their neighbours
//! (OpenType, gvar: "Inferred deltas for un-referenced point numbers").

/// A move of each point; `None` where the variation does not say.
pub(super) type Moves = Vec<Option<[f64; 2]>>;

/// Fills in what is left out, contour by contour. `ends` holds each contour's
/// last point; points past the last contour move only where they are told to.
pub(super) fn infer(points: &[[f64; 2]], ends: &[u16], moves: &mut Moves) {
    let mut first = 0;
    for &end in ends {
        let last = usize::from(end);
        if let (Some(points), Some(moves)) = (points.get(first..=last), moves.get_mut(first..=last))
        {
            contour(points, moves);
        }
        first = last + 1;
    }
}

fn contour(points: &[[f64; 2]], moves: &mut [Option<[f64; 2]>]) {
    let told: Vec<usize> = (0..moves.len()).filter(|&i| moves[i].is_some()).collect();
    if told.is_empty() || told.len() == moves.len() {
        return;
    }
    let count = moves.len();
    for (k, &from) in told.iter().enumerate() {
        let to = told[(k + 1) % told.len()];
        let (Some(one), Some(two)) = (moves[from], moves[to]) else {
            continue;
        };
        let mut i = (from + 1) % count;
        // With a single point told, the walk goes once round and ends at it.
        while i != to {
            let between = |axis: usize| {
                between(
                    points[i][axis],
                    (points[from][axis], one[axis]),
                    (points[to][axis], two[axis]),
                )
            };
            moves[i] = Some([between(0), between(1)]);
            i = (i + 1) % count;
        }
    }
}

/// How far a point goes between two neighbours, each with its place and its move.
fn between(at: f64, one: (f64, f64), two: (f64, f64)) -> f64 {
    let (low, high) = if one.0 <= two.0 {
        (one, two)
    } else {
        (two, one)
    };
    if low.0 == high.0 {
        return if low.1 == high.1 { low.1 } else { 0.0 };
    }
    if at <= low.0 {
        low.1
    } else if at >= high.0 {
        high.1
    } else {
        low.1 + (high.1 - low.1) * (at - low.0) / (high.0 - low.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_between_go_in_proportion_and_those_beyond_with_the_nearer() {
        let points = [
            [0.0, 0.0],
            [50.0, 0.0],
            [100.0, 0.0],
            [120.0, 0.0],
            [-5.0, 9.0],
        ];
        let mut moves = vec![Some([0.0, 0.0]), None, Some([40.0, 2.0]), None, None];
        infer(&points, &[4], &mut moves);
        let x: Vec<f64> = moves.iter().map(|m| m.unwrap()[0]).collect();
        assert_eq!(x, [0.0, 20.0, 40.0, 40.0, 0.0]);
        // The two stand at one height and go different ways up: the rest stay.
        assert_eq!(moves[1].unwrap()[1], 0.0);
    }

    #[test]
    fn one_point_told_takes_its_contour_along_and_no_other() {
        let points = [[0.0, 0.0]; 6];
        let mut moves = vec![None, Some([3.0, -4.0]), None, None, None, None];
        infer(&points, &[2, 5], &mut moves);
        assert!(moves[..3].iter().all(|m| *m == Some([3.0, -4.0])));
        assert!(moves[3..].iter().all(Option::is_none));
    }
}
