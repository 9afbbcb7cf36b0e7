//! Whether a picture file is there to its end: decoders often show a truncated one with a grey foot.

use image::ImageFormat;

/// Whether the end that its format promises is there; a format that promises none counts as whole.
///
/// JPEG ends its pixels with a marker (ITU-T T.81, B.1.1.3: EOI), PNG with an IEND chunk (ISO/IEC 15948), WebP says its
/// length at the start (RFC 9649). What cameras write behind that end does not matter.
pub(super) fn is_whole(bytes: &[u8], format: ImageFormat) -> bool {
    match format {
        ImageFormat::Jpeg => jpeg_ends(bytes),
        ImageFormat::Png => png_ends(bytes),
        ImageFormat::WebP => webp_ends(bytes),
        _ => true,
    }
}

/// Walks the segments up to the pixels (so that a thumbnail's end is not taken for the picture's), then looks for EOI.
fn jpeg_ends(bytes: &[u8]) -> bool {
    let mut at = 2;
    while let Some(&[0xff, marker]) = bytes.get(at..at + 2) {
        match marker {
            0xff => at += 1,
            0xda => return bytes[at..].windows(2).any(|pair| pair == [0xff, 0xd9]),
            0x01 | 0xd0..=0xd8 => at += 2,
            _ => {
                let Some(&[high, low]) = bytes.get(at + 2..at + 4) else { return false };
                at += 2 + usize::from(u16::from_be_bytes([high, low]));
            }
        }
    }
    false
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
