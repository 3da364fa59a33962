//! A scan read: its letters with their edges and strokes.

use crate::edge::edges;
use crate::level::{Levelled, level};
use crate::straighten::{estimate as skew, turned};
use crate::strokes::{Stroke, strokes};
use crate::{Grey, ScanError};
use counterpoise::font::loose::{Guides, estimate, split};
use counterpoise::outline::Outline;

/// Ink smaller than this share of the largest piece is dust.
const DUST: f64 = 0.002;

/// The most pieces of ink: a page of text has some thousand, and is no sketch.
const MOST_PIECES: usize = 500;

/// A letter of a scan.
#[derive(Debug, Clone, PartialEq)]
pub struct ScanLetter {
    /// Its edge as polygons, pixels, y up from the picture's foot.
    pub outline: Outline,
    /// Its strokes, longest first, pixels, y down.
    pub strokes: Vec<Stroke>,
}

/// A scan, read.
#[derive(Debug, Clone, PartialEq)]
pub struct Scan {
    /// The straightened, levelled picture.
    pub levelled: Levelled,
    /// By how much it was turned back, degrees.
    pub skew: f64,
    /// Its letters, from left to right.
    pub letters: Vec<ScanLetter>,
    /// Where baseline and height seem to be, pixels, y up.
    pub guides: Guides,
}

/// Reads a picture. Without an angle its skew is estimated.
///
/// # Errors
/// If no ink can be told from the paper.
pub fn read(grey: &Grey, angle: Option<f64>) -> Result<Scan, ScanError> {
    let first = level(grey)?;
    let skew = angle.unwrap_or_else(|| skew(&first));
    let levelled = if skew == 0.0 {
        first
    } else {
        level(&turned(grey, skew))?
    };
    let pieces = pieces(&levelled);
    let outlines: Vec<Outline> = pieces
        .boxes
        .iter()
        .map(|b| {
            let own = b.label;
            let of = |x: usize, y: usize| {
                let label = pieces.labels[y * levelled.grey.width + x];
                label != 0 && label != own
            };
            Outline::from_path(&edges(&levelled, b.window, of))
        })
        .collect();
    let read: Vec<Vec<Stroke>> = pieces
        .boxes
        .iter()
        .map(|b| {
            let of = |x: usize, y: usize| pieces.labels[y * levelled.grey.width + x] == b.label;
            strokes(&levelled, b.window, of)
        })
        .collect();
    let letters: Vec<ScanLetter> = split(&outlines)
        .into_iter()
        .map(|outline| letter(outline, &outlines, &read))
        .collect();
    let shapes: Vec<Outline> = letters.iter().map(|l| l.outline.clone()).collect();
    let guides = estimate(&shapes).ok_or(ScanError::NoInk)?;
    Ok(Scan {
        levelled,
        skew,
        letters,
        guides,
    })
}

/// A letter with the strokes of the pieces that it was joined from.
fn letter(outline: Outline, pieces: &[Outline], read: &[Vec<Stroke>]) -> ScanLetter {
    let own = outline.bounds();
    let mut all: Vec<Stroke> = pieces
        .iter()
        .zip(read)
        .filter(|(piece, _)| {
            let inside = own.zip(piece.bounds()).map(|(o, p)| {
                let (x, y) = (0.5 * (p.x0 + p.x1), 0.5 * (p.y0 + p.y1));
                o.contains(kurbo::Point::new(x, y)) && p.width() <= o.width() + 1e-6
            });
            inside == Some(true)
        })
        .flat_map(|(_, strokes)| strokes.clone())
        .collect();
    all.sort_by(|a, b| b.length.total_cmp(&a.length));
    ScanLetter {
        outline,
        strokes: all,
    }
}

struct Piece {
    label: u32,
    window: (usize, usize, usize, usize),
    pixels: usize,
}

struct Pieces {
    /// The piece that each pixel belongs to, from 1; 0 is paper.
    labels: Vec<u32>,
    boxes: Vec<Piece>,
}

/// Pieces of ink that hang together, corners counted. Ink at the picture's border
/// is its frame, a shadow or a letter cut off, and left out.
fn pieces(levelled: &Levelled) -> Pieces {
    let (width, height) = (levelled.grey.width, levelled.grey.height);
    let mut labels = vec![0_u32; width * height];
    let mut boxes: Vec<Piece> = Vec::new();
    let mut open = Vec::new();
    for start in 0..labels.len() {
        if labels[start] != 0 || !levelled.is_ink(start % width, start / width) {
            continue;
        }
        let label = boxes.len() as u32 + 1;
        let mut piece = Piece {
            label,
            window: (width, height, 0, 0),
            pixels: 0,
        };
        labels[start] = label;
        open.push(start);
        while let Some(i) = open.pop() {
            let (x, y) = (i % width, i / width);
            let w = &mut piece.window;
            *w = (w.0.min(x), w.1.min(y), w.2.max(x), w.3.max(y));
            piece.pixels += 1;
            for (u, v) in around(x, y, width, height) {
                let j = v * width + u;
                if labels[j] == 0 && levelled.is_ink(u, v) {
                    labels[j] = label;
                    open.push(j);
                }
            }
        }
        boxes.push(piece);
    }
    let inside = |p: &Piece| {
        let (x0, y0, x1, y1) = p.window;
        x0 > 0 && y0 > 0 && x1 + 1 < width && y1 + 1 < height
    };
    boxes.retain(inside);
    let largest = boxes.iter().map(|p| p.pixels).max().unwrap_or(0);
    boxes.retain(|p| p.pixels as f64 >= DUST * largest as f64 && p.pixels > 30);
    boxes.sort_by_key(|p| std::cmp::Reverse(p.pixels));
    boxes.truncate(MOST_PIECES);
    Pieces { labels, boxes }
}

fn around(x: usize, y: usize, w: usize, h: usize) -> impl Iterator<Item = (usize, usize)> {
    let span = |v: usize, n: usize| v.saturating_sub(1)..=(v + 1).min(n - 1);
    span(y, h).flat_map(move |v| span(x, w).map(move |u| (u, v)))
}
