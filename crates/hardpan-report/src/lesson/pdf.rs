//! The lesson as a typeset PDF.

use super::data::LessonData;
use super::{Lesson, Picture};
use crate::figure::{runs_figure, stone_figure, strip_figure};
use crate::typeset::{TypesetError, TypesetWorld, compile, pdf};

const TEMPLATE: &str = include_str!("../../assets/lesson.typ");

/// The lesson as a tagged PDF of as many A4 pages as it takes. The same lesson
/// gives the same bytes.
///
/// # Errors
/// [`TypesetError`] when it cannot be typeset or written.
pub fn lesson_pdf(lesson: &Lesson) -> Result<Vec<u8>, TypesetError> {
    let drawn = lesson.chapters.iter().filter_map(|chapter| chapter.picture);
    let pictures = drawn.map(|picture| (picture.file().to_owned(), picture.svg(lesson)));
    let world = TypesetWorld::new(TEMPLATE, &LessonData::new(lesson), pictures)?;
    pdf(&compile(&world)?, &lesson.report.produced.by)
}

impl Picture {
    /// Name under which the template finds it.
    pub(super) const fn file(self) -> &'static str {
        match self {
            Self::Strip => "strip.svg",
            Self::Runs => "runs.svg",
            Self::Stones => "stones.svg",
        }
    }

    fn svg(self, lesson: &Lesson) -> String {
        match self {
            Self::Strip => strip_figure(&lesson.report),
            Self::Runs => runs_figure(&lesson.report),
            Self::Stones => stone_figure(&lesson.report),
        }
    }
}
