//! PNG and JPEG to grey, within bounds: what the head of the file says is held
//! against them before anything is unpacked.

use crate::{Grey, ScanError};
use std::io::Cursor;
use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

/// A side shorter than this holds no letter.
const LEAST_SIDE: usize = 16;

/// Larger pictures are halved until they have fewer pixels: a letter of a
/// thousand pixels shows its stems as well as one of three thousand.
const MOST_KEPT: usize = 12_000_000;

/// A picture, and how often it was halved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decoded {
    /// In grey.
    pub grey: Grey,
    /// Its size as it came: one pixel kept is `reduced` of its own a side.
    pub reduced: u32,
}

/// Reads a picture.
///
/// # Errors
/// If it is too large, damaged, or neither PNG nor JPEG.
pub fn decode(bytes: &[u8]) -> Result<Decoded, ScanError> {
    if bytes.is_empty() {
        return Err(ScanError::Empty);
    }
    if bytes.len() > ScanError::MAX_BYTES {
        return Err(ScanError::TooLarge);
    }
    let mut grey = if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        png(bytes)?
    } else if bytes.starts_with(&[0xFF, 0xD8, 0xFF]) {
        jpeg(bytes)?
    } else {
        return Err(ScanError::Unknown);
    };
    let mut reduced = 1;
    while grey.pixels.len() > MOST_KEPT {
        grey = halved(&grey);
        reduced *= 2;
    }
    if grey.width < LEAST_SIDE || grey.height < LEAST_SIDE {
        return Err(ScanError::TooSmall);
    }
    Ok(Decoded { grey, reduced })
}

fn check(width: u64, height: u64) -> Result<(usize, usize), ScanError> {
    if width.saturating_mul(height) > ScanError::MAX_PIXELS {
        return Err(ScanError::TooManyPixels);
    }
    let side = |n: u64| usize::try_from(n).map_err(|_| ScanError::TooManyPixels);
    Ok((side(width)?, side(height)?))
}

fn png(bytes: &[u8]) -> Result<Grey, ScanError> {
    let mut decoder = png::Decoder::new(Cursor::new(bytes));
    decoder.set_transformations(png::Transformations::EXPAND | png::Transformations::STRIP_16);
    let damaged = |e: png::DecodingError| match e {
        png::DecodingError::LimitsExceeded => ScanError::TooManyPixels,
        _ => ScanError::Damaged,
    };
    // The head alone is read before its size is held against the bounds.
    let head = decoder.read_header_info().map_err(damaged)?;
    let (width, height) = check(head.width.into(), head.height.into())?;
    let mut reader = decoder.read_info().map_err(damaged)?;
    let size = reader
        .output_buffer_size()
        .ok_or(ScanError::TooManyPixels)?;
    let mut data = vec![0; size];
    let frame = reader.next_frame(&mut data).map_err(damaged)?;
    let samples = frame.color_type.samples();
    data.truncate(frame.buffer_size());
    grey(width, height, samples, &data)
}

fn jpeg(bytes: &[u8]) -> Result<Grey, ScanError> {
    let options = DecoderOptions::default()
        .set_max_width(usize::from(u16::MAX))
        .set_max_height(usize::from(u16::MAX))
        // A damaged picture is told as damaged, not shown half grey.
        .set_strict_mode(true)
        .jpeg_set_out_colorspace(ColorSpace::Luma);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options);
    decoder.decode_headers().map_err(|_| ScanError::Damaged)?;
    let info = decoder.info().ok_or(ScanError::Damaged)?;
    let (width, height) = check(info.width.into(), info.height.into())?;
    let data = decoder.decode().map_err(|_| ScanError::Damaged)?;
    let samples = data.len() / (width * height).max(1);
    grey(width, height, samples, &data)
}

/// Shades of grey by the luma of ITU-R BT.601; what is not opaque lies on white.
fn grey(width: usize, height: usize, samples: usize, data: &[u8]) -> Result<Grey, ScanError> {
    if samples == 0 || data.len() < width * height * samples {
        return Err(ScanError::Damaged);
    }
    let over = |v: u32, alpha: u32| (v * alpha + 255 * (255 - alpha)) / 255;
    let pixels = data
        .chunks_exact(samples)
        .take(width * height)
        .map(|p| {
            let v = |i: usize| u32::from(p[i]);
            let luma = || (299 * v(0) + 587 * v(1) + 114 * v(2)) / 1000;
            let shade = match samples {
                1 => v(0),
                2 => over(v(0), v(1)),
                3 => luma(),
                _ => over(luma(), v(3)),
            };
            shade.min(255) as u8
        })
        .collect();
    Ok(Grey {
        width,
        height,
        pixels,
    })
}

fn halved(grey: &Grey) -> Grey {
    let (width, height) = (grey.width / 2, grey.height / 2);
    let mut pixels = Vec::with_capacity(width * height);
    for y in 0..height {
        let row = |k: usize| &grey.pixels[(2 * y + k) * grey.width..][..grey.width];
        let (a, b) = (row(0), row(1));
        for x in 0..width {
            let sum: u32 = [a[2 * x], a[2 * x + 1], b[2 * x], b[2 * x + 1]]
                .map(u32::from)
                .iter()
                .sum();
            pixels.push(((sum + 2) / 4) as u8);
        }
    }
    Grey {
        width,
        height,
        pixels,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn png_of(width: u32, height: u32) -> Vec<u8> {
        let mut out = Vec::new();
        let mut encoder = png::Encoder::new(&mut out, width, height);
        encoder.set_color(png::ColorType::Grayscale);
        let mut writer = encoder.write_header().unwrap();
        let data = vec![200; (width * height) as usize];
        writer.write_image_data(&data).unwrap();
        drop(writer);
        out
    }

    #[track_caller]
    fn refused(bytes: &[u8], code: &str) {
        let e = decode(bytes).unwrap_err();
        assert_eq!(e.code(), code, "{e}");
        assert!(e.to_string().ends_with('.'));
    }

    #[test]
    fn what_is_no_scan_gets_a_sentence() {
        let sound = png_of(40, 30);
        let read = decode(&sound).unwrap();
        assert_eq!(
            (read.grey.width, read.grey.height, read.reduced),
            (40, 30, 1)
        );
        refused(&[], "empty");
        refused(b"GIF89a", "unknown");
        refused(&vec![0; ScanError::MAX_BYTES + 1], "too-large");
        for cut in [9, 30, sound.len() / 2] {
            refused(&sound[..cut], "damaged");
        }
        refused(&png_of(8, 8), "too-small");
        refused(&[0xFF, 0xD8, 0xFF, 0xE0, 0, 16], "damaged");
    }

    #[test]
    fn a_bomb_is_refused_by_its_head() {
        // 60,000 by 60,000 pixels announced, and hardly any data behind.
        let mut bomb = png_of(40, 30);
        bomb[16..20].copy_from_slice(&60_000_u32.to_be_bytes());
        bomb[20..24].copy_from_slice(&60_000_u32.to_be_bytes());
        // The head's checksum is of the small picture; as its own it must hold.
        let crc = crc32(&bomb[12..29]);
        bomb[29..33].copy_from_slice(&crc.to_be_bytes());
        refused(&bomb, "too-many-pixels");
    }

    /// The checksum of PNG (ISO 3309), bit by bit.
    fn crc32(data: &[u8]) -> u32 {
        let mut crc = u32::MAX;
        for &byte in data {
            crc ^= u32::from(byte);
            for _ in 0..8 {
                crc = if crc & 1 == 1 {
                    (crc >> 1) ^ 0xEDB8_8320
                } else {
                    crc >> 1
                };
            }
        }
        !crc
    }

    #[test]
    fn large_pictures_are_halved() {
        let read = decode(&png_of(4000, 4000)).unwrap();
        assert_eq!((read.grey.width, read.reduced), (2000, 2));
        assert!(read.grey.pixels.iter().all(|&p| p == 200));
    }
}
