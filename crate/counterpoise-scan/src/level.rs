//! Paper and ink told apart on uneven paper.
//!
//! # Method, limits and source
//! Light that falls unevenly multiplies what the paper sends back, so the picture
//! is divided by an estimate of the paper alone: in tiles of a sixteenth of the
//! picture the shade that nine tenths of the pixels are darker than, smoothed
//! over neighbours (a tile full of ink takes theirs), and between their middles
//! linear. On the levelled picture one threshold serves: that of Otsu (A threshold
//! selection method from gray-level histograms, IEEE Transactions on Systems, Man
//! and Cybernetics 9, 1979) parts ink from paper, and the ink's edge is set
//! halfway between the median shades of both, where the edge of a blurred black
//! shape really is. A shadow with a sharp border is read as ink.

use crate::{Grey, ScanError};

/// Tiles a side.
const TILES: usize = 16;

/// The share of a tile's pixels that are darker than its paper.
const PAPER: f64 = 0.9;

/// Paper and ink must lie this far apart in shade (of 255): below, there is only
/// grain.
const LEAST_CONTRAST: f64 = 30.0;

/// A levelled picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Levelled {
    /// Paper is near 255 everywhere.
    pub grey: Grey,
    /// The shade at the ink's edge.
    pub edge: f64,
}

impl Levelled {
    /// Whether a pixel is ink.
    pub fn is_ink(&self, x: usize, y: usize) -> bool {
        f64::from(self.grey.pixels[y * self.grey.width + x]) < self.edge
    }
}

/// Levels a picture and finds its threshold.
///
/// # Errors
/// If all of it is of one shade.
pub fn level(grey: &Grey) -> Result<Levelled, ScanError> {
    let paper = paper(grey);
    let mut pixels = Vec::with_capacity(grey.pixels.len());
    for y in 0..grey.height {
        for x in 0..grey.width {
            let p = f64::from(grey.pixels[y * grey.width + x]);
            let white = between(&paper, grey, x, y).max(1.0);
            pixels.push((255.0 * p / white).min(255.0) as u8);
        }
    }
    let grey = smoothed(&Grey { pixels, ..*grey });
    let histogram = histogram(&grey);
    let split = otsu(&histogram);
    let (ink, white) = (
        middle(&histogram[..=split]),
        middle(&histogram[split + 1..]).map(|m| m + split as f64 + 1.0),
    );
    match ink.zip(white) {
        Some((ink, white)) if white - ink >= LEAST_CONTRAST => Ok(Levelled {
            grey,
            edge: 0.5 * (ink + white),
        }),
        _ => Err(ScanError::NoInk),
    }
}

/// Each pixel with its neighbours, weighted 1, 2, 1 both ways: grain is halved, and
/// the place of a straight edge does not move.
fn smoothed(grey: &Grey) -> Grey {
    let (w, h) = (grey.width, grey.height);
    let mut pixels = Vec::with_capacity(grey.pixels.len());
    for y in 0..h {
        let rows = [y.saturating_sub(1), y, (y + 1).min(h - 1)];
        for x in 0..w {
            let columns = [x.saturating_sub(1), x, (x + 1).min(w - 1)];
            let mut sum = 0;
            for (row, a) in rows.iter().zip([1_u32, 2, 1]) {
                for (column, b) in columns.iter().zip([1, 2, 1]) {
                    sum += a * b * u32::from(grey.pixels[row * w + column]);
                }
            }
            pixels.push(((sum + 8) / 16) as u8);
        }
    }
    Grey { pixels, ..*grey }
}

/// The paper's shade in each tile.
fn paper(grey: &Grey) -> Vec<f64> {
    let mut tiles = vec![0.0; TILES * TILES];
    for (t, tile) in tiles.iter_mut().enumerate() {
        let (i, j) = (t % TILES, t / TILES);
        let range =
            |k: usize, n: usize| (k * n / TILES)..((k + 1) * n / TILES).max(k * n / TILES + 1);
        let mut counts = [0_u32; 256];
        for y in range(j, grey.height) {
            for x in range(i, grey.width) {
                counts[usize::from(grey.pixels[y * grey.width + x])] += 1;
            }
        }
        let all: u32 = counts.iter().sum();
        let mut seen = 0;
        let shade = counts.iter().position(|&c| {
            seen += c;
            f64::from(seen) >= PAPER * f64::from(all)
        });
        *tile = shade.unwrap_or(255) as f64;
    }
    // A tile within a thick stroke has no paper. Its neighbours' is nearest; light
    // falls off slowly, so the brightest of them is not far off.
    let mut filled = tiles.clone();
    for t in 0..tiles.len() {
        let around = around(t, 2).map(|n| tiles[n]).fold(0.0, f64::max);
        if tiles[t] < 0.75 * around {
            filled[t] = around;
        }
    }
    // Smoothed, so that no tile's border shows.
    (0..filled.len())
        .map(|t| {
            let near: Vec<f64> = around(t, 1).map(|n| filled[n]).collect();
            near.iter().sum::<f64>() / near.len() as f64
        })
        .collect()
}

/// The tiles at most so many rows and columns away, the tile itself too.
fn around(t: usize, reach: usize) -> impl Iterator<Item = usize> {
    let (i, j) = (t % TILES, t / TILES);
    let span = move |k: usize| k.saturating_sub(reach)..=(k + reach).min(TILES - 1);
    span(j).flat_map(move |y| span(i).map(move |x| y * TILES + x))
}

/// The paper at a pixel, between the middles of the tiles.
fn between(paper: &[f64], grey: &Grey, x: usize, y: usize) -> f64 {
    let place = |v: usize, n: usize| {
        let u = (v as f64 + 0.5) / n as f64 * TILES as f64 - 0.5;
        // At the border the slope goes on: light does not stop at the paper's edge.
        let k = (u.max(0.0) as usize).min(TILES - 2);
        (k, u - k as f64)
    };
    let ((i, fx), (j, fy)) = (place(x, grey.width), place(y, grey.height));
    let at = |i: usize, j: usize| paper[j * TILES + i];
    let top = at(i, j) * (1.0 - fx) + at(i + 1, j) * fx;
    let foot = at(i, j + 1) * (1.0 - fx) + at(i + 1, j + 1) * fx;
    top * (1.0 - fy) + foot * fy
}

fn histogram(grey: &Grey) -> [u64; 256] {
    let mut counts = [0; 256];
    for &p in &grey.pixels {
        counts[usize::from(p)] += 1;
    }
    counts
}

/// The shade that parts the histogram so that the classes lie farthest apart.
fn otsu(counts: &[u64; 256]) -> usize {
    let all: f64 = counts.iter().map(|&c| c as f64).sum();
    let sum: f64 = counts
        .iter()
        .enumerate()
        .map(|(v, &c)| v as f64 * c as f64)
        .sum();
    let (mut below, mut below_sum) = (0.0, 0.0);
    let mut best = (0, 0.0);
    for (v, &c) in counts.iter().enumerate().take(255) {
        below += c as f64;
        below_sum += v as f64 * c as f64;
        let above = all - below;
        if below == 0.0 || above == 0.0 {
            continue;
        }
        let apart = below_sum / below - (sum - below_sum) / above;
        let between = below * above * apart * apart;
        if between > best.1 {
            best = (v, between);
        }
    }
    best.0
}

/// The median shade of a part of the histogram.
fn middle(counts: &[u64]) -> Option<f64> {
    let all: u64 = counts.iter().sum();
    let mut seen = 0;
    counts
        .iter()
        .position(|&c| {
            seen += c;
            all > 0 && 2 * seen >= all
        })
        .map(|v| v as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gradient_is_levelled_and_one_shade_has_no_ink() {
        let (width, height) = (320, 200);
        let mut pixels = Vec::new();
        for y in 0..height {
            for x in 0..width {
                let light = 0.45 + 0.55 * x as f64 / width as f64;
                let ink = (120..200).contains(&x) && (40..160).contains(&y);
                pixels.push((light * if ink { 40.0 } else { 230.0 }) as u8);
            }
        }
        let grey = Grey {
            width,
            height,
            pixels,
        };
        // Ink in full light is lighter than paper in none: no threshold parts them.
        let l = level(&grey).unwrap();
        for y in 0..height {
            for x in 0..width {
                let ink = (120..200).contains(&x) && (40..160).contains(&y);
                let corner = [120, 199].contains(&x) && [40, 159].contains(&y);
                assert!(corner || l.is_ink(x, y) == ink, "{x} {y}");
            }
        }
        let flat = Grey {
            width: 64,
            height: 64,
            pixels: vec![180; 64 * 64],
        };
        assert_eq!(level(&flat).unwrap_err(), ScanError::NoInk);
    }
}
