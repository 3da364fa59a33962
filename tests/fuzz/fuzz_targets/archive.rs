//! Zipped fonts.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let _ = counterpoise_drawings::ufo::read(data.to_vec());
});
