//! Whether a picture file is there to its end: decoders often show a truncated one with a grey foot.

use image::ImageFormat;

/// Whether the end that its format promises is there; a format that promises none counts as whole.
///
/// JPEG ends its pixels with a marker (ITU-T T.81, B.1.1.3: EOI), PNG with an IEND chunk (ISO/IEC 15948), WebP says its
/// length at the start (RFC 9649). What cameras write after that end does not matter.
pub(super) fn is_whole(bytes: &[u8], format: ImageFormat) -> bool {
    match format {
        ImageFormat::Jpeg => jpeg_ends(bytes),
        ImageFormat::Png => png_ends(bytes),
        ImageFormat::WebP => webp_ends(bytes),
        _ => true,
    }
}

/// Walks the segments and the pixels between them to EOI, so that neither the end of a thumbnail nor the same two bytes
/// in a table of a later scan are taken for the picture's end.
fn jpeg_ends(bytes: &[u8]) -> bool {
    let mut at = 2;
    let mut pixels = false;
    while let Some(&[0xff, marker]) = bytes.get(at..at + 2) {
        match marker {
            0xff => at += 1,
            0xd9 => return pixels,
            0x01 | 0xd0..=0xd8 => at += 2,
            _ => {
                let Some(&[high, low]) = bytes.get(at + 2..at + 4) else { return false };
                at += 2 + usize::from(u16::from_be_bytes([high, low]));
            }
        }
        if marker == 0xda {
            pixels = true;
            at = behind_pixels(bytes, at);
        }
    }
    false
}

/// The byte after a stretch of pixels: that of the next marker which is neither a stuffed 0xff nor a restart.
fn behind_pixels(bytes: &[u8], from: usize) -> usize {
    let rest = bytes.get(from..).unwrap_or_default();
    let marker = rest.windows(2).position(|pair| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xd0..=0xd7 | 0xff));
    marker.map_or(bytes.len(), |found| from + found)
}

fn png_ends(bytes: &[u8]) -> bool {
    let mut at = 8;
    while let Some(head) = bytes.get(at..at + 8) {
        let length = u32::from_be_bytes([head[0], head[1], head[2], head[3]]);
        let Some(end) = usize::try_from(length).ok().and_then(|length| (at + 12).checked_add(length)) else {
            return false;
        };
        if &head[4..] == b"IEND" {
            return end <= bytes.len();
        }
        at = end;
    }
    false
}

fn webp_ends(bytes: &[u8]) -> bool {
    let length = bytes.get(4..8).map(|size| u32::from_le_bytes([size[0], size[1], size[2], size[3]]));
    length.and_then(|length| usize::try_from(length).ok()).is_some_and(|length| bytes.len() - 8 >= length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_is_whole_and_none_of_its_beginnings_is() {
        let small: [(&[u8], ImageFormat); 4] = [
            (include_bytes!("../../tests/fuzz/seeds/photo/turned.jpg"), ImageFormat::Jpeg),
            (include_bytes!("../../tests/fuzz/seeds/photo/progressive.jpg"), ImageFormat::Jpeg),
            (include_bytes!("../../tests/fuzz/seeds/photo/small.png"), ImageFormat::Png),
            (include_bytes!("../../tests/fuzz/seeds/photo/small.webp"), ImageFormat::WebP),
        ];
        for (bytes, format) in small {
            assert!(is_whole(bytes, format), "{format:?}");
            let cut = (0..bytes.len()).find(|end| is_whole(&bytes[..*end], format));
            assert_eq!(cut, None, "{format:?}");
        }
    }

    #[test]
    fn the_end_sign_in_a_table_of_a_later_scan_is_no_end() {
        let table = b"\xff\xd8\xff\xda\0\x02\x11\x22\xff\xc4\0\x04\xff\xd9";
        assert!(!is_whole(table, ImageFormat::Jpeg));
        let whole = [table.as_slice(), b"\xff\xda\0\x02\x33\xff\0\xff\xd0\x44\xff\xd9 and more"].concat();
        assert!(is_whole(&whole, ImageFormat::Jpeg));
    }
}
