//! The typesetter's world: one template, one data file, pictures, three faces
//! of type, no clock and nothing else.

use super::TypesetError;
use serde::Serialize;
use std::sync::LazyLock;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// The faces of type that ship with the program, as OpenType files by name:
/// upright, semi-bold, italic.
#[must_use]
pub const fn typefaces() -> [(&'static str, &'static [u8]); 3] {
    [
        ("Inter-Regular.otf", include_bytes!("../../assets/fonts/Inter-Regular.otf")),
        ("Inter-SemiBold.otf", include_bytes!("../../assets/fonts/Inter-SemiBold.otf")),
        ("Inter-Italic.otf", include_bytes!("../../assets/fonts/Inter-Italic.otf")),
    ]
}

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    typefaces().into_iter().flat_map(|(_, file)| Font::iter(Bytes::new(file))).collect()
});

static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));

/// Whether every face has a sign for a character.
pub(crate) fn is_printable(c: char) -> bool {
    FONTS.iter().all(|font| font.info().coverage.contains(u32::from(c)))
}

/// All that the template may read: `data.json` and the pictures by their names.
pub(crate) struct TypesetWorld {
    template: Source,
    files: Vec<(FileId, Bytes)>,
}

impl TypesetWorld {
    /// A world of a template, its data and its pictures by file name.
    pub(crate) fn new(
        template: &str,
        data: &impl Serialize,
        pictures: impl IntoIterator<Item = (String, String)>,
    ) -> Result<Self, TypesetError> {
        let json = serde_json::to_vec(data)
            .map_err(|why| TypesetError::Typeset { reasons: why.to_string() })?;
        let mut files = vec![(id("data.json")?, Bytes::new(json))];
        for (name, svg) in pictures {
            files.push((id(&name)?, Bytes::from_string(svg)));
        }
        Ok(Self { template: Source::new(id("template.typ")?, template.to_owned()), files })
    }
}

fn id(name: &str) -> Result<FileId, TypesetError> {
    let path = VirtualPath::new(name)
        .map_err(|why| TypesetError::Typeset { reasons: format!("{name}: {why}") })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for TypesetWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.template.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.template.id() { Ok(self.template.clone()) } else { Err(FileError::NotSource) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let found = self.files.iter().find(|(known, _)| *known == id);
        found.map(|(_, bytes)| bytes.clone()).ok_or(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
