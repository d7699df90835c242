//! Taking out of a picture what its camera wrote about place, time and owner.

use crate::{BookError, PictureFormat};
use img_parts::jpeg::{Jpeg, JpegSegment, markers};
use img_parts::png::Png;
use img_parts::riff::{RiffChunk, RiffContent};
use img_parts::webp::{CHUNK_VP8X, WebP};
use img_parts::{Bytes, ImageEXIF};

/// Chunks of a PNG by which it is shown. Source: ISO/IEC 15948 and its extensions,
/// from memory.
const SHOWN_OF_PNG: [&[u8; 4]; 18] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sBIT", b"sRGB",
    b"cICP", b"bKGD", b"hIST", b"pHYs", b"sPLT", b"acTL", b"fcTL", b"fdAT",
];

/// Chunks of a WebP by which it is shown. Source: RFC 9649, 2.7, from memory.
const SHOWN_OF_WEBP: [&[u8; 4]; 7] =
    [b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ANIM", b"ANMF", b"ICCP"];

/// Mark of the chunk `VP8X` that there is XMP. Source: RFC 9649, 2.7, from memory.
const HAS_XMP: u8 = 0b0000_0100;

/// The bytes by which a picture is shown, its colours and which side is up; nothing
/// else of what its camera or a program wrote into it or behind it. A picture without
/// such comes out as it went in.
///
/// # Errors
/// [`BookError::Picture`] where its parts cannot be told apart.
pub(crate) fn without_metadata(
    content: &[u8],
    format: PictureFormat,
) -> Result<Vec<u8>, BookError> {
    let taken = match format {
        PictureFormat::Jpeg => jpeg(content),
        PictureFormat::Png => png(content),
        PictureFormat::Webp => webp(content),
    };
    taken.ok_or_else(|| BookError::Picture {
        what: format!(
            "its parts cannot be told apart, so that a place in it could not be taken out; save \
             it anew as {format}"
        ),
    })
}

fn jpeg(content: &[u8]) -> Option<Vec<u8>> {
    let mut picture = Jpeg::from_bytes(Bytes::copy_from_slice(content)).ok()?;
    let side = picture.exif().and_then(|exif| side(&exif));
    let segments = picture.segments_mut();
    segments.retain(|one| is_of_jpeg(one.marker(), one.contents()));
    // Everything from the first scan on hangs on it.
    let first = segments.pop().filter(|one| one.marker() == markers::SOS)?;
    let rest = first.len_with_entropy() - first.len();
    let scans = scans(content.get(content.len().checked_sub(rest)?..)?)?;
    let first = first.contents().clone();
    segments.push(JpegSegment::new_with_entropy(markers::SOS, first, Bytes::from(scans)));
    picture.set_exif(side);
    Some(picture.encoder().bytes().to_vec())
}

/// Whether a segment is one by which the picture is shown: of those for applications
/// the size, the colours and Adobe's kind of colours; no remark.
fn is_of_jpeg(marker: u8, contents: &[u8]) -> bool {
    match marker {
        markers::APP0 => contents.starts_with(b"JFIF\0"),
        markers::APP2 => contents.starts_with(b"ICC_PROFILE\0"),
        markers::APP14 => contents.starts_with(b"Adobe"),
        markers::APP0..=markers::APP15 | markers::COM => false,
        _ => true,
    }
}

/// The scans up to the end of the picture, without what stands between them and what
/// follows it. Source: ISO/IEC 10918-1, B.1.1, from memory.
fn scans(rest: &[u8]) -> Option<Vec<u8>> {
    let mut kept = Vec::with_capacity(rest.len());
    let mut at = 0;
    while let Some(byte) = rest.get(at) {
        let two = rest.get(at..at + 2);
        match (byte, rest.get(at + 1).copied()) {
            (0xFF, Some(0x00 | 0xD0..=0xD7)) => {
                kept.extend_from_slice(two?);
                at += 2;
            }
            (0xFF, Some(markers::EOI)) => {
                kept.extend_from_slice(two?);
                break;
            }
            (0xFF, Some(marker)) if marker != 0xFF => {
                let length = rest.get(at + 2..at + 4)?;
                let length = usize::from(u16::from_be_bytes(length.try_into().ok()?));
                let contents = rest.get(at + 4..at + 2 + length)?;
                if is_of_jpeg(marker, contents) {
                    kept.extend_from_slice(rest.get(at..at + 2 + length)?);
                }
                at += 2 + length;
            }
            (byte, _) => {
                kept.push(*byte);
                at += 1;
            }
        }
    }
    Some(kept)
}

fn png(content: &[u8]) -> Option<Vec<u8>> {
    let mut picture = Png::from_bytes(Bytes::copy_from_slice(content)).ok()?;
    let side = picture.exif().and_then(|exif| side(&exif));
    picture.chunks_mut().retain(|one| SHOWN_OF_PNG.contains(&&one.kind()));
    picture.set_exif(side);
    Some(picture.encoder().bytes().to_vec())
}

fn webp(content: &[u8]) -> Option<Vec<u8>> {
    let mut picture = WebP::from_bytes(Bytes::copy_from_slice(content)).ok()?;
    let side = picture.exif().and_then(|exif| side(&exif));
    let all = picture.chunks().len();
    picture.chunks_mut().retain(|one| SHOWN_OF_WEBP.contains(&&one.id()));
    if picture.chunks().len() < all {
        for chunk in picture.chunks_mut().iter_mut().filter(|one| one.id() == CHUNK_VP8X) {
            let mut marks = chunk.content().data()?.to_vec();
            *marks.first_mut()? &= !HAS_XMP;
            *chunk = RiffChunk::new(CHUNK_VP8X, RiffContent::Data(Bytes::from(marks)));
        }
        picture.set_exif(side);
    }
    Some(picture.encoder().bytes().to_vec())
}

/// Which side is up, written anew and alone; none where the picture stands as it is
/// written. Source: CIPA DC-008 (Exif), 4.6.2 and 4.6.4, from memory.
fn side(exif: &[u8]) -> Option<Bytes> {
    let read = exif::Reader::new().read_raw(exif.to_vec()).ok()?;
    let side = read.get_field(exif::Tag::Orientation, exif::In::PRIMARY)?.value.get_uint(0)?;
    let side = u8::try_from(side).ok().filter(|side| (2..=8).contains(side))?;
    let head = b"II*\0\x08\0\0\0";
    let entry = [&[1, 0, 0x12, 0x01, 3, 0, 1, 0, 0, 0, side, 0, 0, 0][..], &[0; 4]].concat();
    Some(Bytes::from([&head[..], &entry].concat()))
}
