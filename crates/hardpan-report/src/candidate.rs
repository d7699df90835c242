//! Which flight a figure is of, and how it is opened.

/// A flight with values stated again, as one of several that are compared or tried.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Candidate {
    /// Its file, or its name on the page.
    pub flight: String,
    /// Values stated again, by the keys of the files.
    pub changes: Vec<(String, String)>,
}

impl Candidate {
    /// The command that opens a figure or a check of it.
    #[must_use]
    pub fn explain(&self, figure: &str) -> String {
        let mut line = format!("hardpan explain {} {}", word(&self.flight), word(figure));
        for (key, value) in &self.changes {
            line.push_str(" --change ");
            line.push_str(&word(&format!("{key}={value}")));
        }
        line
    }
}

/// A word of a command line, in quotes where a shell would take it apart.
fn word(text: &str) -> String {
    let is_plain = |c: char| c.is_alphanumeric() || "._/=-+:@%,".contains(c);
    if !text.is_empty() && text.chars().all(is_plain) {
        return text.to_owned();
    }
    let mut out = String::from("\"");
    for c in text.chars() {
        if matches!(c, '"' | '\\' | '$' | '`') {
            out.push('\\');
        }
        out.push(c);
    }
    out.push('"');
    out
}

#[cfg(test)]
mod tests {
    use super::Candidate;

    #[test]
    fn a_command_is_quoted_as_a_shell_reads_it() {
        let changes = vec![("landing.mass".to_owned(), "38 t".to_owned())];
        let one = Candidate { flight: "my $flights/flight.toml".to_owned(), changes };
        assert_eq!(
            one.explain("V1"),
            "hardpan explain \"my \\$flights/flight.toml\" V1 --change \"landing.mass=38 t\""
        );
    }
}
