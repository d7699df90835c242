//! Who is signed in.

use super::{Role, secret};
use std::collections::HashMap;
use std::time::{Duration, Instant};

/// After this time without a request a session ends.
const IDLE: Duration = Duration::from_secs(2 * 3600);
/// Longest session.
const LONGEST: Duration = Duration::from_secs(12 * 3600);
/// Sessions of one account; the oldest ends when there are more.
const MOST_EACH: usize = 8;

/// One session.
#[derive(Debug, Clone)]
pub(super) struct Session {
    pub(super) name: String,
    pub(super) role: Role,
    /// What its forms carry.
    pub(super) token: String,
    begun: Instant,
    last: Instant,
}

/// All sessions, by the secret that the browser keeps.
#[derive(Debug, Default)]
pub(super) struct Sessions {
    by_secret: HashMap<String, Session>,
}

impl Sessions {
    /// Begin a session; gives its secret.
    pub(super) fn begin(
        &mut self,
        name: &str,
        role: Role,
        now: Instant,
    ) -> Result<String, std::io::Error> {
        self.by_secret.retain(|_, session| session.stands(now));
        let mine = self.by_secret.iter().filter(|(_, session)| session.name == name);
        let mut mine: Vec<(Instant, String)> =
            mine.map(|(secret, session)| (session.last, secret.clone())).collect();
        mine.sort_unstable();
        let surplus = (mine.len() + 1).saturating_sub(MOST_EACH);
        for (_, old) in mine.into_iter().take(surplus) {
            self.by_secret.remove(&old);
        }
        let (key, token) = (secret()?, secret()?);
        let session = Session { name: name.to_owned(), role, token, begun: now, last: now };
        self.by_secret.insert(key.clone(), session);
        Ok(key)
    }

    /// The session of a secret, if it stands.
    pub(super) fn find(&mut self, secret: &str, now: Instant) -> Option<Session> {
        let session = self.by_secret.get_mut(secret).filter(|session| session.stands(now))?;
        session.last = now;
        Some(session.clone())
    }

    pub(super) fn end(&mut self, secret: &str) {
        self.by_secret.remove(secret);
    }
}

impl Session {
    fn stands(&self, now: Instant) -> bool {
        now.duration_since(self.last) < IDLE && now.duration_since(self.begun) < LONGEST
    }
}

#[cfg(test)]
mod tests {
    use super::{IDLE, LONGEST, MOST_EACH, Sessions};
    use crate::account::Role;
    use std::time::{Duration, Instant};

    #[test]
    fn a_session_ends_when_nobody_uses_it_and_in_any_case() {
        let mut sessions = Sessions::default();
        let begun = Instant::now();
        let secret = sessions.begin("ada", Role::Viewer, begun).expect("random numbers");
        assert!(sessions.find("x", begun).is_none());
        let mut now = begun;
        while now.duration_since(begun) + IDLE / 2 < LONGEST {
            now += IDLE / 2;
            assert_eq!(sessions.find(&secret, now).map(|one| one.name), Some("ada".to_owned()));
        }
        assert!(sessions.find(&secret, begun + LONGEST).is_none());
        let idle = sessions.begin("ada", Role::Viewer, begun).expect("random numbers");
        assert!(sessions.find(&idle, begun + IDLE).is_none());
    }

    #[test]
    fn an_account_has_so_many_sessions_and_can_end_each() {
        let mut sessions = Sessions::default();
        let begun = Instant::now();
        let secrets: Vec<String> = (0..u64::try_from(MOST_EACH).expect("small") + 1)
            .map(|one| begun + Duration::from_secs(one))
            .map(|now| sessions.begin("ada", Role::Viewer, now).expect("random numbers"))
            .collect();
        let now = begun + Duration::from_secs(60);
        assert!(sessions.find(&secrets[0], now).is_none(), "the oldest ends");
        assert!(sessions.find(&secrets[1], now).is_some());
        sessions.end(&secrets[1]);
        assert!(sessions.find(&secrets[1], now).is_none());
    }
}
