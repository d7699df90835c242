//! Who may read and record, where other machines can reach the page.

mod attempts;
mod door;
mod password;
mod session;
mod sign_in;

pub(crate) use door::{Gate, Peer, Visitor, admit, sender, visitor};
pub use password::{PasswordError, hash_password};
pub(crate) use sign_in::{form, sign_in, sign_out};

use hardpan_book::Kind;

/// What somebody may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Reads everything and records nothing.
    Viewer,
    /// Records what is seen and done on the strip.
    Surveyor,
    /// Records what flies, breaks and is fitted, and closes strips.
    Dispatcher,
    /// Records everything.
    Admin,
}

impl Role {
    /// Every role.
    pub const ALL: [Self; 4] = [Self::Viewer, Self::Surveyor, Self::Dispatcher, Self::Admin];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Viewer => "viewer",
            Self::Surveyor => "surveyor",
            Self::Dispatcher => "dispatcher",
            Self::Admin => "admin",
        }
    }

    /// The role of a word.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.word() == word)
    }

    /// Whether flights may be planned.
    #[must_use]
    pub const fn may_plan(self) -> bool {
        matches!(self, Self::Dispatcher | Self::Admin)
    }

    /// Whether assessments may be kept in a book.
    #[must_use]
    pub const fn may_keep(self) -> bool {
        matches!(self, Self::Dispatcher | Self::Admin)
    }

    /// Whether surveys may be brought.
    #[must_use]
    pub const fn may_bring(self) -> bool {
        matches!(self, Self::Surveyor | Self::Admin)
    }

    /// Whether a record of a kind may be made. A strip may be closed by all who
    /// record anything.
    #[must_use]
    pub const fn may_record(self, kind: Kind) -> bool {
        match self {
            Self::Viewer => false,
            Self::Admin => true,
            Self::Surveyor => {
                matches!(kind, Kind::Inspection | Kind::Repair | Kind::Survey | Kind::Closure)
            }
            Self::Dispatcher => {
                matches!(kind, Kind::Movement | Kind::Damage | Kind::Equipment | Kind::Closure)
            }
        }
    }
}

/// Somebody who may sign in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// Name, which stands as author of what is recorded.
    pub name: String,
    /// What they may do.
    pub role: Role,
    /// Hash of the password, as [`hash_password`] gives it.
    pub hash: String,
}

/// A text that nobody can guess.
pub(crate) fn secret() -> Result<String, std::io::Error> {
    let mut bytes = [0_u8; 24];
    getrandom::fill(&mut bytes).map_err(|cause| std::io::Error::other(cause.to_string()))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

#[cfg(test)]
mod tests {
    use super::Role;
    use hardpan_book::Kind;

    #[test]
    fn who_may_record_what() {
        let rights = |kind| Role::ALL.map(|role| role.may_record(kind));
        assert_eq!(rights(Kind::Movement), [false, false, true, true]);
        assert_eq!(rights(Kind::Inspection), [false, true, false, true]);
        assert_eq!(rights(Kind::Closure), [false, true, true, true]);
        assert_eq!(rights(Kind::Withdrawal), [false, false, false, true]);
        for role in Role::ALL {
            assert_eq!(Role::of_word(role.word()), Some(role));
        }
    }
}
