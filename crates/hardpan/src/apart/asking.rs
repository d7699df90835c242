//! Asking the process that reads, and what its end tells.

use super::{Asked, Limits, MOST_TOLD, Told};
use crate::arguments::READER;
use hardpan_files::Unread;
use hardpan_quantity::seconds;
use std::io::{Read, Write as _};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// Most bytes of what it says of its own end.
const MOST_COMPLAINT: u64 = 16 * 1024;
/// How often it is looked after.
const STEP: Duration = Duration::from_millis(5);
/// Wait for the last words of a process that has ended.
const LAST_WORDS: Duration = Duration::from_secs(5);
/// Exit code of a command that cannot be used.
const UNUSABLE: i32 = 2;
/// What a program says that gets no more memory, and one that gets no thread for it.
const NO_MEMORY: [&str; 2] = ["memory allocation of", "failed to spawn thread"];

/// Ask for a strip as it is with another file.
pub(crate) fn ask(asked: &Asked, limits: Limits) -> Result<Told, Unread> {
    let no_reader = |reason: String| Unread::NotStarted { reason };
    let program = std::env::current_exe().map_err(|error| no_reader(error.to_string()))?;
    let asked = serde_json::to_vec(asked).map_err(|error| no_reader(error.to_string()))?;
    let mut command = Command::new(program);
    command.arg(READER);
    command.args([format!("--memory={}", limits.memory), format!("--time={}", limits.seconds)]);
    let told = answer(command, &asked, limits)?;
    serde_json::from_slice(&told)
        .map_err(|_| Unread::Ended { how: "the answer was not whole".to_owned() })
}

/// What a command answers to a question, within bounds of size and time.
fn answer(mut command: Command, asked: &[u8], limits: Limits) -> Result<Vec<u8>, Unread> {
    command.env_clear();
    // The allocator takes memory as it is needed, so that a bound on it bounds that.
    command.env("MIMALLOC_ARENA_RESERVE", "0");
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let started = command.spawn();
    let mut child = started.map_err(|error| Unread::NotStarted { reason: error.to_string() })?;
    let told = child.stdout.take().map(|out| heard(out, MOST_TOLD));
    let complaint = child.stderr.take().map(|out| heard(out, MOST_COMPLAINT));
    // It is shorter than what a pipe holds; whether it is read the answer tells.
    let _ = child.stdin.take().map(|mut input| input.write_all(asked));
    let status = ended(&mut child, limits.patience());
    let words = |from: Option<Receiver<Vec<u8>>>| {
        from.and_then(|from| from.recv_timeout(LAST_WORDS).ok()).unwrap_or_default()
    };
    match status {
        Some(status) if status.success() => {
            let told = words(told);
            if u64::try_from(told.len()).is_ok_and(|length| length <= MOST_TOLD) {
                return Ok(told);
            }
            Err(Unread::Ended { how: "the answer was too long".to_owned() })
        }
        Some(status) => Err(why(status, &String::from_utf8_lossy(&words(complaint)), limits)),
        None => Err(Unread::Time { limit: seconds(limits.patience().as_secs_f64()) }),
    }
}

/// What a pipe gives, up to one byte more than is taken.
fn heard(from: impl Read + Send + 'static, most: u64) -> Receiver<Vec<u8>> {
    let (give, take) = channel();
    std::thread::spawn(move || {
        let mut bytes = Vec::new();
        let _ = from.take(most + 1).read_to_end(&mut bytes);
        let _ = give.send(bytes);
    });
    take
}

/// How a process ended; one that goes on for too long is ended, and gives nothing.
fn ended(child: &mut Child, patience: Duration) -> Option<ExitStatus> {
    let begun = Instant::now();
    while begun.elapsed() < patience {
        match child.try_wait() {
            Ok(Some(status)) => return Some(status),
            Ok(None) => std::thread::sleep(STEP),
            Err(_) => break,
        }
    }
    let _ = child.kill();
    let _ = child.wait();
    None
}

/// What the end of a process tells that gave no answer.
fn why(status: ExitStatus, complaint: &str, limits: Limits) -> Unread {
    if is_out_of_time(status) {
        return Unread::Time { limit: seconds(f64::from(limits.seconds)) };
    }
    if NO_MEMORY.iter().any(|words| complaint.contains(words)) {
        return Unread::Memory { limit: limits.bytes() };
    }
    if status.code() == Some(UNUSABLE) {
        let said = complaint.trim().trim_start_matches("hardpan: ");
        return Unread::NotStarted { reason: said.to_owned() };
    }
    Unread::Ended { how: format!("its reader ended with {status}") }
}

#[cfg(unix)]
fn is_out_of_time(status: ExitStatus) -> bool {
    use std::os::unix::process::ExitStatusExt as _;
    status.signal() == Some(rustix::process::Signal::XCPU.as_raw())
}

#[cfg(not(unix))]
const fn is_out_of_time(_: ExitStatus) -> bool {
    false
}

#[cfg(all(test, unix))]
mod tests {
    use super::{Limits, answer};
    use hardpan_files::Unread;
    use std::process::Command;
    use std::time::{Duration, Instant};

    fn asked(script: &str) -> Result<Vec<u8>, Unread> {
        let mut command = Command::new("/bin/sh");
        command.args(["-c", script]);
        answer(command, b"asked", Limits { memory: 64, seconds: 1 })
    }

    #[test]
    fn an_answer_comes_whole_and_from_an_empty_environment() {
        let told = asked("cat; echo \"${HOME-none}\"").expect("it answers");
        assert_eq!(told, b"askednone\n");
    }

    #[test]
    fn whatever_a_reader_does_the_page_gets_a_word_and_goes_on() {
        let begun = Instant::now();
        for (script, expected) in [
            ("sleep 600", "Time"),
            ("while :; do :; done", "Time"),
            ("kill -SEGV $$", "Ended"),
            ("exit 101", "Ended"),
            ("echo memory allocation of 9 bytes failed >&2; exit 134", "Memory"),
            ("echo no bound >&2; exit 2", "NotStarted"),
            ("cat /dev/zero", "Ended"),
            ("cat /dev/zero >&2", "Ended"),
            ("head -c 5000000 /dev/zero; exit 0", "Ended"),
        ] {
            let told = asked(script).expect_err(script);
            assert!(format!("{told:?}").starts_with(expected), "{script}: {told:?}");
        }
        assert!(begun.elapsed() < Duration::from_secs(30), "{:?}", begun.elapsed());
    }

    #[test]
    fn what_cannot_be_started_is_told() {
        let command = Command::new("/nowhere/reader");
        let told = answer(command, b"", Limits { memory: 64, seconds: 1 });
        assert!(matches!(told, Err(Unread::NotStarted { .. })), "{told:?}");
    }
}
