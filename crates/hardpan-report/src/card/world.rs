//! The typesetter's world: one template, one data file, one picture, three
//! faces of type, no clock and nothing else.

use super::CardError;
use super::data::CardData;
use std::sync::LazyLock;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

const TEMPLATE: &str = include_str!("../../assets/card.typ");

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let files: [&'static [u8]; 3] = [
        include_bytes!("../../assets/fonts/Inter-Regular.otf"),
        include_bytes!("../../assets/fonts/Inter-SemiBold.otf"),
        include_bytes!("../../assets/fonts/Inter-Italic.otf"),
    ];
    files.into_iter().flat_map(|file| Font::iter(Bytes::new(file))).collect()
});

static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));

/// Whether every face has a sign for a character.
pub(super) fn is_printable(c: char) -> bool {
    FONTS.iter().all(|font| font.info().coverage.contains(u32::from(c)))
}

/// All that the template may read.
pub(super) struct CardWorld {
    template: Source,
    files: [(FileId, Bytes); 2],
}

impl CardWorld {
    pub(super) fn new(data: &CardData, sketch: &str) -> Result<Self, CardError> {
        let json = serde_json::to_vec(data)
            .map_err(|why| CardError::Typeset { reasons: why.to_string() })?;
        Ok(Self {
            template: Source::new(id("card.typ")?, TEMPLATE.to_owned()),
            files: [
                (id("card.json")?, Bytes::new(json)),
                (id("strip.svg")?, Bytes::from_string(sketch.to_owned())),
            ],
        })
    }
}

fn id(name: &str) -> Result<FileId, CardError> {
    let path = VirtualPath::new(name)
        .map_err(|why| CardError::Typeset { reasons: format!("{name}: {why}") })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for CardWorld {
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
