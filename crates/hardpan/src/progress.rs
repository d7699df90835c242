//! A sign of life on long work: only beside the result, only at a terminal.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::borrow::Cow;
use std::time::Duration;

/// Time between two signs.
const BEAT: Duration = Duration::from_millis(120);

/// What is being done; it vanishes when it is dropped.
pub(crate) struct Progress {
    bar: ProgressBar,
}

impl Progress {
    /// Start with a first step in words. Where messages go to no terminal,
    /// nothing is shown.
    pub(crate) fn start(what: &'static str) -> Self {
        let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
        let style = ProgressStyle::with_template("{spinner} {msg} … {elapsed}");
        if let Ok(style) = style {
            bar.set_style(style.tick_chars("-\\|/ "));
        }
        bar.set_message(what);
        bar.enable_steady_tick(BEAT);
        Self { bar }
    }

    /// The next step.
    pub(crate) fn step(&self, what: impl Into<Cow<'static, str>>) {
        self.bar.set_message(what);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}
