//! The file of a picture: its kind, its size and its digest, before it is kept.

use crate::BookError;
use crate::private::without_metadata;
use imagesize::ImageType;
use sha2::{Digest as _, Sha256};

/// Most bytes of a picture.
pub const LARGEST_PICTURE: usize = 8 * 1024 * 1024;

/// Most picture elements of a picture: none shall fill the memory of who looks at it.
const MOST_ELEMENTS: usize = 100_000_000;

/// How the bytes of a picture are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PictureFormat {
    /// ISO/IEC 10918-1.
    Jpeg,
    /// ISO/IEC 15948.
    Png,
    /// RFC 9649.
    Webp,
}

impl PictureFormat {
    /// The media type, and nothing that a browser would run.
    #[must_use]
    pub const fn media_type(self) -> &'static str {
        match self {
            Self::Jpeg => "image/jpeg",
            Self::Png => "image/png",
            Self::Webp => "image/webp",
        }
    }

    /// Ending of a file name.
    #[must_use]
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Jpeg => "jpg",
            Self::Png => "png",
            Self::Webp => "webp",
        }
    }
}

/// The bytes of a picture, once they are those of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureFile {
    /// The bytes.
    pub content: Vec<u8>,
    /// How they are written, by their beginning; a name or a sender is not asked.
    pub format: PictureFormat,
    /// Picture elements from left to right.
    pub width: i64,
    /// Picture elements from top to bottom.
    pub height: i64,
    /// SHA-256 of the bytes, in hexadecimal digits.
    pub digest: String,
}

impl PictureFile {
    /// Take bytes for a picture. Its beginning and header are read, the picture
    /// itself is not decoded.
    ///
    /// # Errors
    /// [`BookError::Picture`]: no JPEG, PNG or WebP, a header that cannot be read, or
    /// too many bytes or picture elements.
    pub fn read(content: Vec<u8>) -> Result<Self, BookError> {
        let wrong = |what: String| BookError::Picture { what };
        if content.is_empty() {
            return Err(wrong("it holds no byte".to_owned()));
        }
        if content.len() > LARGEST_PICTURE {
            let what = format!(
                "it has {} bytes, and {LARGEST_PICTURE} at most are kept; make it smaller",
                content.len()
            );
            return Err(wrong(what));
        }
        let format = match imagesize::image_type(&content) {
            Ok(ImageType::Jpeg) => PictureFormat::Jpeg,
            Ok(ImageType::Png) => PictureFormat::Png,
            Ok(ImageType::Webp) => PictureFormat::Webp,
            _ => {
                let what = "it begins as no JPEG, PNG or WebP does; save it as one of these";
                return Err(wrong(what.to_owned()));
            }
        };
        let size = imagesize::blob_size(&content)
            .map_err(|cause| wrong(format!("its {format} header cannot be read: {cause}")))?;
        let elements = size.width.checked_mul(size.height);
        if !elements.is_some_and(|elements| (1..=MOST_ELEMENTS).contains(&elements)) {
            let what = format!(
                "its header states {} by {} picture elements; 1 to {MOST_ELEMENTS} of them can \
                 be kept",
                size.width, size.height
            );
            return Err(wrong(what));
        }
        let side = |side: usize| i64::try_from(side).unwrap_or(i64::MAX);
        let digest = sha256(&content);
        Ok(Self { format, width: side(size.width), height: side(size.height), digest, content })
    }

    /// Take bytes for a picture without what a camera wrote into them of place, time and
    /// owner; which side is up stays.
    ///
    /// # Errors
    /// As [`PictureFile::read`]; also where the parts of it cannot be told apart.
    pub fn received(content: Vec<u8>) -> Result<Self, BookError> {
        let picture = Self::read(content)?;
        let private = without_metadata(&picture.content, picture.format)?;
        if private == picture.content { Ok(picture) } else { Self::read(private) }
    }

    /// Number of its bytes.
    #[must_use]
    pub fn bytes(&self) -> i64 {
        i64::try_from(self.content.len()).unwrap_or(i64::MAX)
    }
}

pub(crate) fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}
