//! The exact Euclidean distance of every ink pixel to the nearest paper.
//!
//! Felzenszwalb and Huttenlocher, Distance transforms of sampled functions,
//! Theory of Computing 8 (2012): the lower envelope of parabolas, first along
//! columns, then along rows, in linear time. Squared distances of pixel middles,
//! exact; beside each the nearest paper pixel is kept.

/// Distances over a window of pixels.
#[derive(Debug, Clone, PartialEq)]
pub struct Distances {
    /// Columns.
    pub width: usize,
    /// Rows.
    pub height: usize,
    /// Squared distance to the nearest paper pixel, 0 on paper.
    pub squared: Vec<f32>,
    /// The nearest paper pixel, as row times width plus column.
    pub nearest: Vec<u32>,
}

/// Farther than any pixel of a picture that is kept.
const FAR: f32 = 1e9;

/// Distances within a mask whose ink does not touch its border.
pub fn distances(width: usize, height: usize, ink: &[bool]) -> Distances {
    let mut squared: Vec<f32> = ink.iter().map(|&i| if i { FAR } else { 0.0 }).collect();
    let mut nearest: Vec<u32> = (0..ink.len() as u32).collect();
    let longest = width.max(height);
    let mut line = Envelope::new(longest);
    for x in 0..width {
        line.run(height, |k| k * width + x, &mut squared, &mut nearest);
    }
    for y in 0..height {
        line.run(width, |k| y * width + k, &mut squared, &mut nearest);
    }
    Distances {
        width,
        height,
        squared,
        nearest,
    }
}

/// Scratch for one line: the parabolas of the lower envelope.
struct Envelope {
    at: Vec<usize>,
    from: Vec<f64>,
    values: Vec<f32>,
    sources: Vec<u32>,
}

impl Envelope {
    fn new(longest: usize) -> Self {
        Self {
            at: vec![0; longest],
            from: vec![0.0; longest + 1],
            values: vec![0.0; longest],
            sources: vec![0; longest],
        }
    }

    fn run(
        &mut self,
        n: usize,
        place: impl Fn(usize) -> usize,
        squared: &mut [f32],
        nearest: &mut [u32],
    ) {
        for k in 0..n {
            self.values[k] = squared[place(k)];
            self.sources[k] = nearest[place(k)];
        }
        // In double precision: squares of thousands would lose their last bits.
        let height = |v: &[f32], k: usize| f64::from(v[k]) + (k * k) as f64;
        let mut last = 0;
        self.at[0] = 0;
        self.from[0] = f64::NEG_INFINITY;
        self.from[1] = f64::INFINITY;
        for k in 1..n {
            loop {
                let p = self.at[last];
                let meet = (height(&self.values, k) - height(&self.values, p))
                    / (2.0 * (k as f64 - p as f64));
                if meet <= self.from[last] && last > 0 {
                    last -= 1;
                    continue;
                }
                last += 1;
                self.at[last] = k;
                self.from[last] = meet;
                self.from[last + 1] = f64::INFINITY;
                break;
            }
        }
        let mut part = 0;
        for k in 0..n {
            while self.from[part + 1] < k as f64 {
                part += 1;
            }
            let p = self.at[part];
            let d = k as f32 - p as f32;
            squared[place(k)] = d * d + self.values[p];
            nearest[place(k)] = self.sources[p];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_exact_as_looking_at_every_pixel() {
        let (width, height) = (37, 23);
        // Some blobs whose pixels follow no pattern.
        let ink: Vec<bool> = (0..width * height)
            .map(|i| {
                let (x, y) = (i % width, i / width);
                let border = x == 0 || y == 0 || x == width - 1 || y == height - 1;
                !border && (x * 7 + y * 13 + x * y) % 11 > 1
            })
            .collect();
        let found = distances(width, height, &ink);
        for i in 0..ink.len() {
            let (x, y) = ((i % width) as f32, (i / width) as f32);
            let nearest = (0..ink.len())
                .filter(|&j| !ink[j])
                .map(|j| (x - (j % width) as f32).powi(2) + (y - (j / width) as f32).powi(2))
                .fold(f32::INFINITY, f32::min);
            assert_eq!(found.squared[i], nearest);
            let j = found.nearest[i] as usize;
            let own = (x - (j % width) as f32).powi(2) + (y - (j / width) as f32).powi(2);
            assert!(!ink[j] && own == nearest);
        }
    }
}
