//! One thing to mend, and where it stands.

use std::fmt;

/// A sentence that names a file, a line where one is known, and what to mend.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Path from the root of the workspace.
    pub file: String,
    /// Line, counted from 1, if the problem has one.
    pub line: Option<usize>,
    /// What is wrong and how to mend it.
    pub text: String,
}

impl Problem {
    /// A problem of a whole file.
    pub fn of_file(file: impl Into<String>, text: impl Into<String>) -> Self {
        Self { file: file.into(), line: None, text: text.into() }
    }

    /// A problem of one line.
    pub fn at(file: impl Into<String>, line: usize, text: impl Into<String>) -> Self {
        Self { file: file.into(), line: Some(line), text: text.into() }
    }

    /// Add what is not there yet: two steps may read one file and meet one problem.
    pub(crate) fn add_new(problems: &mut Vec<Self>, found: Vec<Self>) {
        for problem in found {
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "{}:{line}: {}", self.file, self.text),
            None => write!(f, "{}: {}", self.file, self.text),
        }
    }
}
