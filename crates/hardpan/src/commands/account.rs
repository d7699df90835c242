//! `hardpan account`: who may sign in to the page.

use crate::arguments::AccountAction;
use crate::failure::Failure;
use crate::output::write_private;
use crate::screen;
use hardpan_files::{Disk, FileSource as _};
use hardpan_web::{Account, Role, hash_password};
use serde::{Deserialize, Serialize};
use std::io::{BufRead as _, IsTerminal as _};
use std::path::Path;

/// An account as it stands in its file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Kept {
    name: String,
    role: String,
    password: String,
}

/// Longest name, in characters.
const LONGEST_NAME: usize = 80;

fn refused(what: impl Into<String>) -> Failure {
    Failure::Argument { what: what.into() }
}

/// The accounts of a file.
pub(super) fn read(path: &Path) -> Result<Vec<Account>, Failure> {
    let told = |what: String| refused(format!("{}: {what}", path.display()));
    let bytes =
        Disk::default().read(&path.to_string_lossy()).map_err(|error| told(error.to_string()))?;
    let kept: Vec<Kept> = serde_json::from_slice(&bytes)
        .map_err(|error| told(format!("this is no file of `hardpan account`: {error}")))?;
    let account =
        |kept: Kept| Ok(Account { role: role(&kept.role)?, name: kept.name, hash: kept.password });
    kept.into_iter().map(account).collect()
}

fn role(word: &str) -> Result<Role, Failure> {
    Role::of_word(word).ok_or_else(|| {
        refused(format!("`{word}` is no role; there is {}", Role::ALL.map(Role::word).join(", ")))
    })
}

fn write(path: &Path, accounts: Vec<Account>) -> Result<(), Failure> {
    let kept: Vec<Kept> = accounts
        .into_iter()
        .map(|one| Kept { name: one.name, role: one.role.word().to_owned(), password: one.hash })
        .collect();
    let text = serde_json::to_string_pretty(&kept)
        .map_err(|error| refused(format!("the accounts cannot be written: {error}")))?;
    write_private(path, format!("{text}\n").as_bytes())
}

/// Do one thing with a file of accounts.
pub(crate) fn run(path: &Path, action: &AccountAction) -> Result<u8, Failure> {
    match action {
        AccountAction::Add { name, role: word } => {
            let role = role(word)?;
            let name = name.trim();
            let length = name.chars().count();
            if length == 0 || length > LONGEST_NAME || name.chars().any(char::is_control) {
                return Err(refused(format!("a name has 1 to {LONGEST_NAME} characters")));
            }
            let mut accounts = if path.exists() { read(path)? } else { Vec::new() };
            let hash = hash_password(&password()?).map_err(|error| refused(format!("{error}")))?;
            accounts.retain(|one| one.name != name);
            accounts.push(Account { name: name.to_owned(), role, hash });
            write(path, accounts)?;
            screen::say(&format!("{name}, {}: {}\n", role.word(), path.display()));
        }
        AccountAction::Remove { name } => {
            let mut accounts = read(path)?;
            let before = accounts.len();
            accounts.retain(|one| one.name != *name);
            if accounts.len() == before {
                return Err(refused(format!("there is no `{name}` in {}", path.display())));
            }
            write(path, accounts)?;
            screen::say(&format!("{name} is taken out of {}\n", path.display()));
        }
        AccountAction::List => {
            for one in read(path)? {
                screen::say(&format!("{}, {}\n", one.name, one.role.word()));
            }
        }
    }
    Ok(0)
}

/// A password, asked for at a terminal without showing it, or one line of
/// standard input.
fn password() -> Result<String, Failure> {
    let told = |error: std::io::Error| refused(format!("no password could be read: {error}"));
    let input = std::io::stdin();
    if input.is_terminal() {
        return rpassword::prompt_password("password: ").map_err(told);
    }
    let mut line = String::new();
    input.lock().read_line(&mut line).map_err(told)?;
    Ok(line.trim_end_matches(['\r', '\n']).to_owned())
}
