//! The files of the workspace, always in the same order.

use crate::Problem;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The checkout that this program was built from.
#[derive(Debug, Clone)]
pub struct Workspace {
    root: PathBuf,
}

impl Workspace {
    /// The workspace that this crate stands in.
    #[must_use]
    pub fn here() -> Self {
        let crate_folder = Path::new(env!("CARGO_MANIFEST_DIR"));
        let root = crate_folder.ancestors().nth(2).unwrap_or(crate_folder);
        Self { root: root.to_path_buf() }
    }

    /// Where a file stands, by its path from the root.
    #[must_use]
    pub fn path(&self, file: &str) -> PathBuf {
        self.root.join(file)
    }

    /// The text of a file, by its path from the root.
    ///
    /// # Errors
    /// A [`Problem`] when the file cannot be read or is not UTF-8.
    pub fn read(&self, file: &str) -> Result<String, Problem> {
        std::fs::read_to_string(self.root.join(file))
            .map_err(|error| Problem::of_file(file, error.to_string()))
    }

    /// The text of a file, or none if it does not exist or is not text.
    #[must_use]
    pub fn text(&self, file: &str) -> Option<String> {
        std::fs::read_to_string(self.root.join(file)).ok()
    }

    /// Write a file, by its path from the root.
    ///
    /// # Errors
    /// A [`Problem`] when it cannot be written.
    pub fn write(&self, file: &str, text: &str) -> Result<(), Problem> {
        let path = self.root.join(file);
        path.parent()
            .map_or(Ok(()), std::fs::create_dir_all)
            .and_then(|()| std::fs::write(&path, text))
            .map_err(|error| Problem::of_file(file, error.to_string()))
    }

    /// Files that are, or could be, in version control, sorted.
    ///
    /// # Errors
    /// A [`Problem`] when `git` does not answer.
    pub fn files(&self) -> Result<Vec<String>, Problem> {
        let listing = [
            "-c",
            "safe.directory=*",
            "ls-files",
            "-z",
            "--cached",
            "--others",
            "--exclude-standard",
            "--deduplicate",
        ];
        let text = self.run("git", &listing, "")?;
        let mut files: Vec<String> =
            text.split('\0').filter(|name| !name.is_empty()).map(str::to_owned).collect();
        files.retain(|name| self.root.join(name).is_file());
        files.sort();
        Ok(files)
    }

    /// The files under a folder with an ending such as `.toml`, sorted.
    ///
    /// # Errors
    /// As [`Self::files`].
    pub fn files_in(&self, folder: &str, ending: &str) -> Result<Vec<String>, Problem> {
        let mut files = self.files()?;
        files.retain(|name| {
            name.strip_prefix(folder).is_some_and(|rest| rest.starts_with('/'))
                && name.ends_with(ending)
        });
        Ok(files)
    }

    /// What a program of the toolchain prints, given a text to read.
    ///
    /// # Errors
    /// A [`Problem`] when it cannot be started or reports a failure.
    pub fn run(&self, program: &str, arguments: &[&str], input: &str) -> Result<String, Problem> {
        let failed = |text: String| Problem::of_file(program, text);
        let mut child = Command::new(program)
            .args(arguments)
            .current_dir(&self.root)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .map_err(|error| failed(error.to_string()))?;
        if let Some(mut pipe) = child.stdin.take() {
            use std::io::Write;
            pipe.write_all(input.as_bytes()).map_err(|error| failed(error.to_string()))?;
        }
        let output = child.wait_with_output().map_err(|error| failed(error.to_string()))?;
        if output.status.success() {
            String::from_utf8(output.stdout).map_err(|error| failed(error.to_string()))
        } else {
            Err(failed(String::from_utf8_lossy(&output.stderr).trim().to_owned()))
        }
    }
}
