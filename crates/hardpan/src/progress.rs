//! A sign of life on long work: only beside the result, only at a terminal.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::borrow::Cow;
use std::time::Duration;

/// Time between two signs.
const BEAT: Duration = Duration::from_millis(120);

/// Parts that a file is told in.
const PARTS: u64 = 10_000;

/// What is being done; it vanishes when it is dropped.
pub(crate) struct Progress {
    bar: ProgressBar,
}

impl Progress {
    /// Start with a first step in words. Where messages go to no terminal,
    /// nothing is shown.
    pub(crate) fn start(what: &'static str) -> Self {
        Self::on(ProgressDrawTarget::stderr(), what)
    }

    fn on(target: ProgressDrawTarget, what: &'static str) -> Self {
        let bar = ProgressBar::with_draw_target(None, target);
        let style = ProgressStyle::with_template("{spinner} {msg} … {elapsed}");
        if let Ok(style) = style {
            bar.set_style(style.tick_chars("-\\|/ "));
        }
        bar.set_message(what);
        bar.enable_steady_tick(BEAT);
        Self { bar }
    }

    /// How much of a large file has been read, with the time that is left.
    pub(crate) fn share(&self, path: &str, share: f64) {
        if self.bar.length().is_none() {
            let style = ProgressStyle::with_template(
                "{spinner} reading {msg} {wide_bar} {percent} %, {eta} left",
            );
            if let Ok(style) = style {
                self.bar.set_style(style.tick_chars("-\\|/ ").progress_chars("=> "));
            }
            self.bar.set_message(path.to_owned());
            self.bar.set_length(PARTS);
            self.bar.reset_eta();
        }
        // Between 0 and 1, so that the cast keeps the value.
        self.bar.set_position((share.clamp(0.0, 1.0) * PARTS as f64) as u64);
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

#[cfg(test)]
mod tests {
    use super::*;
    use indicatif::TermLike;
    use std::io::Result;
    use std::sync::{Arc, Mutex};

    /// Keeps what a terminal of 80 columns would be sent.
    #[derive(Debug, Clone, Default)]
    struct Kept(Arc<Mutex<String>>);

    impl TermLike for Kept {
        fn width(&self) -> u16 {
            80
        }
        fn move_cursor_up(&self, _: usize) -> Result<()> {
            Ok(())
        }
        fn move_cursor_down(&self, _: usize) -> Result<()> {
            Ok(())
        }
        fn move_cursor_right(&self, _: usize) -> Result<()> {
            Ok(())
        }
        fn move_cursor_left(&self, _: usize) -> Result<()> {
            Ok(())
        }
        fn write_line(&self, text: &str) -> Result<()> {
            self.write_str(text)
        }
        fn write_str(&self, text: &str) -> Result<()> {
            self.0.lock().expect("one writer at a time").push_str(text);
            Ok(())
        }
        fn clear_line(&self) -> Result<()> {
            Ok(())
        }
        fn flush(&self) -> Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_large_file_shows_its_share_and_the_time_that_is_left() {
        let kept = Kept::default();
        let target = ProgressDrawTarget::term_like(Box::new(kept.clone()));
        let progress = Progress::on(target, "measuring the strip");
        for share in [0.1, 0.2, 0.25] {
            progress.share("scan.laz", share);
            std::thread::sleep(2 * BEAT);
        }
        drop(progress);
        let text = kept.0.lock().expect("one reader").clone();
        assert!(text.contains("reading scan.laz") && text.contains("25 %"), "{text}");
        let left = text.rsplit_once(" left").expect("the time").0;
        let time = left.rsplit_once(", ").expect("after the share").1;
        // A quarter took at least two waits, so three quarters take longer.
        assert!(time.ends_with('s') && time != "0s", "{time}");
    }
}
