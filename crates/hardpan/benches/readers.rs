//! Fifty readers of a stored assessment on loopback: 99 answers of 100 within 100 ms,
//! and nothing lost. It ends with an error where that does not hold; run it alone on a
//! machine that does nothing else:
//!
//! ```sh
//! cargo bench -p hardpan --bench readers
//! ```
#![allow(missing_docs, clippy::print_stdout)]

#[path = "../tests/browser/driver.rs"]
#[allow(dead_code)]
mod driver;

use driver::Served;
use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::process::{Command, ExitCode};
use std::time::{Duration, Instant};

/// What 99 answers of 100 are held to.
const HELD: Duration = Duration::from_millis(100);
const READERS: usize = 50;
const EACH: usize = 40;

/// One answer over a connection that stays open.
fn read(stream: &mut TcpStream, port: u16, path: &str) -> Vec<u8> {
    write!(stream, "GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n").expect("it is sent");
    let (mut answer, mut part) = (Vec::new(), vec![0_u8; 256 * 1024]);
    loop {
        let count = stream.read(&mut part).expect("it answers");
        assert!(count > 0, "the answer was cut off");
        answer.extend_from_slice(&part[..count]);
        let Some(end) = answer.windows(4).position(|four| four == b"\r\n\r\n") else { continue };
        let head = String::from_utf8_lossy(&answer[..end]).to_ascii_lowercase();
        let length = head.lines().find_map(|line| line.strip_prefix("content-length: "));
        let length: usize = length.expect("a length").trim().parse().expect("a number");
        if answer.len() >= end + 4 + length {
            assert!(head.starts_with("http/1.1 200"), "{head}");
            return answer.split_off(end + 4);
        }
    }
}

/// Whether 99 answers of 100 came in time; a lost one ends it.
fn measure(port: u16, path: &'static str) -> bool {
    let first = read(&mut TcpStream::connect(("127.0.0.1", port)).expect("it listens"), port, path);
    let begun = Instant::now();
    let readers: Vec<_> = (0..READERS)
        .map(|_| {
            let first = first.clone();
            std::thread::spawn(move || {
                let mut stream = TcpStream::connect(("127.0.0.1", port)).expect("it listens");
                stream.set_nodelay(true).expect("a socket");
                let one = |_| {
                    let begun = Instant::now();
                    let answer = read(&mut stream, port, path);
                    let took = begun.elapsed();
                    assert!(answer == first, "an answer differs");
                    took
                };
                (0..EACH).map(one).collect::<Vec<Duration>>()
            })
        })
        .collect();
    let mut all: Vec<Duration> =
        readers.into_iter().flat_map(|reader| reader.join().expect("nothing is lost")).collect();
    let whole = begun.elapsed();
    assert_eq!(all.len(), READERS * EACH, "an answer was lost");
    all.sort_unstable();
    let at = |share: f64| all[((all.len() as f64 * share) as usize).min(all.len() - 1)];
    let ms = |took: Duration| took.as_secs_f64() * 1e3;
    let share = at(0.99).as_secs_f64() / HELD.as_secs_f64();
    println!(
        "{path}: {READERS} readers, {} answers of {} kB in {:.2} s, none lost; half within \
         {:.1} ms, 99 of 100 within {:.1} ms, longest {:.1} ms; {share:.2} of the {} ms held to",
        all.len(),
        first.len() / 1000,
        whole.as_secs_f64(),
        ms(at(0.5)),
        ms(at(0.99)),
        ms(at(1.0)),
        HELD.as_millis(),
    );
    share <= 1.0
}

fn main() -> ExitCode {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let hardpan = |arguments: &[&str]| {
        let out = Command::new(env!("CARGO_BIN_EXE_hardpan")).args(arguments).output();
        out.expect("the program starts")
    };
    let place = flights.to_string_lossy();
    assert!(hardpan(&["new", "demo", &place]).status.success());
    let (flight, book) = (format!("{place}/flight.toml"), format!("{place}/long.book"));
    hardpan(&["assess", &flight, "--keep", &book, "--by", "Ada"]);
    // Files that were written a moment ago are read afresh each time.
    std::thread::sleep(Duration::from_secs(3));
    let served = Served::with(&[&place]);
    let port = served.url.rsplit_once(':').and_then(|(_, port)| port.parse().ok());
    let port: u16 = port.expect("a port");
    let held = ["/api/flights/flight", "/api/books/long/entries/1"].map(|path| measure(port, path));
    if held.contains(&false) { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}
