//! Many readers at once. It measures and holds no time, since a machine that does
//! other work tells nothing; run it alone:
//!
//! ```sh
//! cargo test --workspace --test load -- --ignored --nocapture
//! ```

#[path = "browser/driver.rs"]
#[allow(dead_code)]
mod driver;

use driver::Served;
use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::time::{Duration, Instant};

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

fn measure(port: u16, path: &'static str) {
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
    println!(
        "{path}: {} answers of {} kB in {:.2} s; half under {:.1} ms, 99 of 100 under {:.1} ms, \
         longest {:.1} ms",
        all.len(),
        first.len() / 1000,
        whole.as_secs_f64(),
        at(0.5).as_secs_f64() * 1e3,
        at(0.99).as_secs_f64() * 1e3,
        at(1.0).as_secs_f64() * 1e3,
    );
}

#[test]
#[ignore = "it measures; run it alone on a quiet machine"]
fn fifty_readers_of_a_stored_assessment() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let hardpan = |arguments: &[&str]| {
        let out =
            std::process::Command::new(env!("CARGO_BIN_EXE_hardpan")).args(arguments).output();
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
    measure(port, "/api/flights/flight");
    measure(port, "/api/books/long/entries/1");
}
