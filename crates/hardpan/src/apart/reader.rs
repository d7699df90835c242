//! The process that reads what was brought.

use super::{Asked, Judged, Limits, MOST_ASKED, Place, Told, bounds};
use crate::failure::Failure;
use crate::shelf::{Over, naming};
use hardpan_assess::dossier;
use hardpan_files::{Diagnostic, Disk, FileSource as _, Memory, Severity, read_strip, render};
use std::io::{Read as _, Write as _};

/// Answer one question: it stands on the standard input, the answer on the output.
pub(crate) fn run(limits: Limits) -> Result<u8, Failure> {
    let refused = |what: String| Failure::Argument { what };
    bounds::set(limits).map_err(refused)?;
    let mut asked = Vec::new();
    let read = std::io::stdin().lock().take(MOST_ASKED).read_to_end(&mut asked);
    read.map_err(|error| refused(error.to_string()))?;
    let asked: Asked =
        serde_json::from_slice(&asked).map_err(|error| refused(error.to_string()))?;
    let told = serde_json::to_vec(&told(&asked)).map_err(|error| refused(error.to_string()))?;
    let mut out = std::io::stdout().lock();
    out.write_all(&told).and_then(|()| out.flush()).map_err(|error| refused(error.to_string()))?;
    Ok(0)
}

fn told(asked: &Asked) -> Told {
    let unusable = |what: String| Told::Refused(Vec::new(), what);
    let disk = Disk::default();
    let text = match disk.read(&asked.strip) {
        Ok(bytes) => String::from_utf8(bytes),
        Err(error) => return unusable(format!("{}: {error}.", asked.strip)),
    };
    let Ok(text) = text else { return unusable("The strip file is no text.".to_owned()) };
    let Some(naming) = naming(&text, &asked.key, &asked.named) else {
        return unusable("The strip file has mistakes; put it right first.".to_owned());
    };
    let over = Over { under: &disk, over: Memory::default().with(&asked.strip, naming) };
    let reading = read_strip(&over, &asked.strip);
    let Some(strip) = &reading.value else {
        let errors = reading.diagnostics.iter().filter(|one| one.severity == Severity::Error);
        let text = render(&reading.diagnostics, &reading.sources, false);
        return Told::Refused(errors.map(place).collect(), text);
    };
    let is_of_it =
        |one: &&Diagnostic| one.severity == Severity::Warning && *one.file == *asked.file;
    let mine: Vec<Diagnostic> = reading.diagnostics.iter().filter(is_of_it).cloned().collect();
    let judged = dossier(strip, None);
    let checks = judged.findings.iter().map(|finding| {
        (finding.code.to_owned(), finding.title.clone(), finding.verdict.word().to_owned())
    });
    Told::Read(Judged {
        warnings: render(&mine, &reading.sources, false),
        verdict: judged.verdict.word().to_owned(),
        checks: checks.collect(),
    })
}

fn place(one: &Diagnostic) -> Place {
    Place {
        code: one.code.to_owned(),
        file: one.file.to_string(),
        line: one.line,
        column: one.column,
        message: one.message.clone(),
        expected: one.expected.clone(),
        hint: one.hint.clone(),
    }
}
