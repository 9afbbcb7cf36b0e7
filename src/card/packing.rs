//! Packing what a PDF holds. To set up what packs takes as long as to pack a sheet, so one serves a whole card.

use flate2::{Compress, Compression, FlushCompress, Status};

/// What packs, one stream after the other.
pub(super) struct Packing(Compress);

impl Default for Packing {
    /// For what is packed with every card: quick, and some hundredths larger than at best.
    fn default() -> Self {
        Self(Compress::new(Compression::fast(), true))
    }
}

impl Packing {
    /// For what is packed once for all cards: as small as can be.
    pub(super) fn small() -> Self {
        Self(Compress::new(Compression::best(), true))
    }

    /// A stream, packed as `FlateDecode` asks (RFC 1950).
    pub(super) fn pack(&mut self, stream: &[u8]) -> Vec<u8> {
        self.0.reset();
        let mut packed = Vec::with_capacity(stream.len() / 2 + 64);
        loop {
            let taken = usize::try_from(self.0.total_in()).unwrap_or(usize::MAX).min(stream.len());
            match self.0.compress_vec(&stream[taken..], &mut packed, FlushCompress::Finish) {
                Ok(Status::StreamEnd) | Err(_) => return packed,
                Ok(Status::Ok | Status::BufError) => packed.reserve(stream.len() / 2 + 64),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::io::Read as _;

    use super::*;

    #[test]
    fn what_is_packed_comes_out_again_whatever_was_packed_before() {
        let noise: Vec<u8> = (0..70_000_u32).map(|at| (at.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
        let mut packing = Packing::default();
        let once = packing.pack(&noise);
        for stream in [&b""[..], b"amber", &noise, &vec![7; 100_000]] {
            let packed = packing.pack(stream);
            let mut out = Vec::new();
            flate2::read::ZlibDecoder::new(&packed[..]).read_to_end(&mut out).unwrap();
            assert!(out == stream, "{} bytes", stream.len());
        }
        assert!(packing.pack(&noise) == once, "the same bytes each time");
    }
}
