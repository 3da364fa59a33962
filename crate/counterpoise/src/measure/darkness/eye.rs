//! How finely the eye takes in a line of letters.

/// A blur, as the spatial frequency at which it halves what it passes.
///
/// # Where the cut-off comes from
/// - Letters are identified through one channel of spatial frequency (Solomon
///   and Pelli, Nature 369, 1994), at about 3 cycles a letter, more for larger
///   letters (Majaj, Pelli, Kurshan and Palomares, Vision Research 42, 2002).
/// - Capitals are told apart most efficiently in a band about 1.5 cycles a
///   letter *height* (Parish and Sperling, Vision Research 31, 1991).
/// - Blur does not slow reading until it takes away what lies below about 2
///   cycles a letter (Legge, Pelli, Rubin and Schleske, Vision Research 25,
///   1985); a later measurement has about 1.4 (Kwon and Legge, 'Spatial-frequency
///   requirements for reading revisited'). Both concern low-pass blur, as here.
///
/// The default, 2 cycles, is thus the strongest blur under which all that
/// reading needs is still there: strokes soften into the letter's darkness,
/// letters do not yet melt into the word. It is a setting, not a constant of
/// the eye: which frequencies serve changes with size and noise (Oruc and
/// Landy, Journal of Vision 9(9):4, 2009). The sources speak of identifying
/// letters and of reading; that unevenness is seen through the same channel is
/// our assumption.
///
/// # The width of the Gaussian
/// A Gaussian of standard deviation s passes a grating of frequency f with
/// amplitude exp(-2 pi^2 s^2 f^2). That is a half at the cut-off
/// f = cycles / letter size when
///
/// s = sqrt(ln 2 / 2) / (pi f) = 0.1874 * letter size / cycles,
///
/// at 2 cycles 0.094 of the letter size, about half of a text stem's thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Eye {
    letter_size: f64,
    cycles: f64,
}

impl Eye {
    /// Cycles a letter at which the blur halves what it passes, by default.
    pub const CYCLES: f64 = 2.0;

    /// The range of the setting, cycles a letter. Below, words melt into the
    /// line; above, a stem stays as sharp as it was drawn.
    pub const CYCLES_RANGE: (f64, f64) = (0.5, 6.0);

    /// An eye for letters of a size, font units: the x-height of a line of
    /// lower case, the cap height of a line of capitals. A text face's letters
    /// are about as wide as they are high, so a cycle a letter is nearly the
    /// same across as upwards. `None` of a size that no letter could have.
    pub fn new(letter_size: f64) -> Option<Self> {
        super::is_size(letter_size).then_some(Self {
            letter_size,
            cycles: Self::CYCLES,
        })
    }

    /// The same with another cut-off, cycles a letter, kept within
    /// [`Eye::CYCLES_RANGE`]; one that is no number changes nothing.
    #[must_use]
    pub fn with_cycles(self, cycles: f64) -> Self {
        let (least, most) = Self::CYCLES_RANGE;
        if cycles.is_nan() {
            return self;
        }
        Self {
            cycles: cycles.clamp(least, most),
            ..self
        }
    }

    /// The letter size it was made for, font units.
    pub fn letter_size(self) -> f64 {
        self.letter_size
    }

    /// Cycles a letter at the cut-off.
    pub fn cycles(self) -> f64 {
        self.cycles
    }

    /// Standard deviation of the blur, font units.
    pub fn sigma(self) -> f64 {
        let cut_off = self.cycles / self.letter_size;
        (0.5 * std::f64::consts::LN_2).sqrt() / (std::f64::consts::PI * cut_off)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grating_at_the_cut_off_is_halved() {
        let eye = Eye::new(500.0).unwrap().with_cycles(3.0);
        let (sigma, f) = (eye.sigma(), 3.0 / 500.0);
        // The blurred grating at its crest: the Gaussian's mean of cos(2 pi f x).
        let (mut sum, mut weight) = (0.0, 0.0);
        for i in -6000..=6000 {
            let x = f64::from(i) * sigma / 1000.0;
            let g = (-0.5 * (x / sigma).powi(2)).exp();
            sum += g * (std::f64::consts::TAU * f * x).cos();
            weight += g;
        }
        assert!((sum / weight - 0.5).abs() < 1e-6, "{}", sum / weight);
    }

    #[test]
    fn settings_out_of_range_are_kept_in_it() {
        let eye = Eye::new(500.0).unwrap();
        assert_eq!(eye.with_cycles(f64::INFINITY).cycles(), 6.0);
        assert_eq!(eye.with_cycles(-1.0).cycles(), 0.5);
        assert_eq!(eye.with_cycles(f64::NAN), eye);
        assert_eq!(Eye::new(0.0), None);
        assert_eq!(Eye::new(f64::NAN), None);
    }
}
