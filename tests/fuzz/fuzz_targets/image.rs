//! Scans: decoded, levelled, their letters read.
#![no_main]

use libfuzzer_sys::fuzz_target;

/// Pixels that are looked through: decoding has its own bound, and what comes
/// after it is slow in a build that looks for faults.
const PIXELS: usize = 200_000;

fuzz_target!(|data: &[u8]| {
    let Ok(decoded) = counterpoise_scan::decode::decode(data) else {
        return;
    };
    if decoded.grey.pixels.len() <= PIXELS {
        let _ = counterpoise_scan::letters::read(&decoded.grey, None);
    }
});
