//! How often something may be tried: after some failures each next one has to
//! wait twice as long, and requests in a row are counted.

use std::collections::HashMap;
use std::time::{Duration, Instant};

/// Failures before anybody has to wait.
const FREE: u32 = 5;
/// First wait.
const FIRST_WAIT: Duration = Duration::from_secs(2);
/// Longest wait.
const LONGEST_WAIT: Duration = Duration::from_secs(900);
/// Keys that are remembered.
const MOST: usize = 10_000;

/// Failed attempts by key, such as a name or the address of a machine.
#[derive(Debug, Default)]
pub(super) struct Failures {
    by_key: HashMap<String, (u32, Instant)>,
}

impl Failures {
    /// How long the key still has to wait.
    pub(super) fn wait(&self, key: &str, now: Instant) -> Option<Duration> {
        let (count, last) = self.by_key.get(key)?;
        let doublings = count.checked_sub(FREE)?.min(16);
        let wait = FIRST_WAIT.saturating_mul(1 << doublings).min(LONGEST_WAIT);
        wait.checked_sub(now.duration_since(*last)).filter(|left| !left.is_zero())
    }

    pub(super) fn failed(&mut self, key: &str, now: Instant) {
        if self.by_key.len() >= MOST {
            let oldest = self.by_key.iter().min_by_key(|(_, (_, last))| *last);
            if let Some(oldest) = oldest.map(|(key, _)| key.clone()) {
                self.by_key.remove(&oldest);
            }
        }
        let entry = self.by_key.entry(key.to_owned()).or_insert((0, now));
        *entry = (entry.0.saturating_add(1), now);
    }

    pub(super) fn succeeded(&mut self, key: &str) {
        self.by_key.remove(key);
    }
}

/// Requests in a row that a machine may make.
const BURST: f64 = 120.0;
/// Requests a second that it may go on with.
const RATE: f64 = 20.0;

/// Requests by machine.
#[derive(Debug, Default)]
pub(super) struct Requests {
    by_machine: HashMap<std::net::IpAddr, (f64, Instant)>,
}

impl Requests {
    /// Whether a machine may make one more request now.
    pub(super) fn may(&mut self, machine: std::net::IpAddr, now: Instant) -> bool {
        if self.by_machine.len() >= MOST {
            let full = Duration::from_secs_f64(BURST / RATE);
            self.by_machine.retain(|_, (_, last)| now.duration_since(*last) < full);
        }
        let (left, last) = self.by_machine.entry(machine).or_insert((BURST, now));
        let more = now.duration_since(*last).as_secs_f64() * RATE;
        *left = (*left + more).min(BURST);
        *last = now;
        let may = *left >= 1.0;
        if may {
            *left -= 1.0;
        }
        may
    }
}

#[cfg(test)]
mod tests {
    use super::{BURST, FREE, Failures, LONGEST_WAIT, RATE, Requests};
    use std::time::{Duration, Instant};

    #[test]
    fn after_some_failures_the_wait_doubles_and_ends() {
        let mut failures = Failures::default();
        let begun = Instant::now();
        for _ in 0..FREE {
            assert_eq!(failures.wait("ada", begun), None);
            failures.failed("ada", begun);
        }
        assert_eq!(failures.wait("ada", begun), Some(Duration::from_secs(2)));
        assert_eq!(failures.wait("ada", begun + Duration::from_secs(2)), None);
        failures.failed("ada", begun);
        assert_eq!(failures.wait("ada", begun), Some(Duration::from_secs(4)));
        assert_eq!(failures.wait("bob", begun), None);
        for _ in 0..100 {
            failures.failed("ada", begun);
        }
        assert_eq!(failures.wait("ada", begun), Some(LONGEST_WAIT));
        failures.succeeded("ada");
        assert_eq!(failures.wait("ada", begun), None);
    }

    #[test]
    fn a_machine_may_make_so_many_requests_and_others_as_many() {
        let mut requests = Requests::default();
        let (one, two) = ("192.0.2.1".parse().expect("it"), "192.0.2.2".parse().expect("it"));
        let now = Instant::now();
        let made = (0..1000).filter(|_| requests.may(one, now)).count();
        assert_eq!(made, BURST as usize);
        assert!(requests.may(two, now));
        let later = now + Duration::from_secs(1);
        let more = (0..1000).filter(|_| requests.may(one, later)).count();
        assert_eq!(more, RATE as usize);
    }
}
