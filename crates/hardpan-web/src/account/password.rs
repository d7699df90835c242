//! Passwords: only a hash of each is kept.

use argon2::Argon2;
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher as _, PasswordVerifier as _};

/// Fewest characters of a password.
const SHORTEST: usize = 12;

/// Most characters that are taken.
const LONGEST: usize = 200;

/// A hash that no password has, so that an unknown name takes as long as a known one.
const NOBODY: &str = "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$\
                      AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// Why a password cannot be taken.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PasswordError {
    /// Too short or too long.
    #[error("a password has {SHORTEST} to {LONGEST} characters; this one has {length}")]
    Length {
        /// Characters given.
        length: usize,
    },
    /// The system gives no random numbers, or the hash cannot be made.
    #[error("the password cannot be hashed: {cause}")]
    Hash {
        /// The reason.
        cause: String,
    },
}

/// Hash of a password with a salt of its own: Argon2id with the parameters that
/// the library recommends.
///
/// # Errors
/// [`PasswordError`] for a password of another length, or when it cannot be hashed.
pub fn hash_password(password: &str) -> Result<String, PasswordError> {
    let length = password.chars().count();
    if !(SHORTEST..=LONGEST).contains(&length) {
        return Err(PasswordError::Length { length });
    }
    Argon2::default()
        .hash_password(password.as_bytes())
        .map(|hash| hash.to_string())
        .map_err(|error| PasswordError::Hash { cause: error.to_string() })
}

/// Whether a password is that of a hash; `None` stands for nobody's hash and
/// takes as long.
pub(super) fn is_of(password: &str, hash: Option<&str>) -> bool {
    if password.chars().count() > LONGEST {
        return false;
    }
    let fits = PasswordHash::new(hash.unwrap_or(NOBODY)).is_ok_and(|parsed| {
        Argon2::default().verify_password(password.as_bytes(), &parsed).is_ok()
    });
    fits && hash.is_some()
}

#[cfg(test)]
mod tests {
    use super::{NOBODY, hash_password, is_of};
    use argon2::password_hash::phc::PasswordHash;

    #[test]
    fn only_the_password_itself_fits_its_hash() {
        let hash = hash_password("gravel and grass").expect("long enough");
        assert!(hash.starts_with("$argon2id$") && !hash.contains("gravel"));
        assert_ne!(hash, hash_password("gravel and grass").expect("another salt"));
        assert!(is_of("gravel and grass", Some(&hash)));
        for other in ["gravel and gras", "", "Gravel and grass"] {
            assert!(!is_of(other, Some(&hash)), "{other}");
        }
        assert!(!is_of("gravel and grass", None) && !is_of("x", Some("no hash")));
        assert!(PasswordHash::new(NOBODY).is_ok(), "it is verified like any other");
    }

    #[test]
    fn short_and_endless_passwords_are_refused() {
        assert!(hash_password("too short").is_err());
        assert!(hash_password(&"x".repeat(201)).is_err());
        assert!(!is_of(&"x".repeat(100_000), Some("no hash")));
    }
}
