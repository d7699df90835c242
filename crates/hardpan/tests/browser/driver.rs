//! A browser driven through the WebDriver protocol, and the server it looks at.

use serde_json::{Value, json};
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};

/// What to do when the browser is not there. A test that is left out proves nothing.
const INSTALL: &str = "these tests need Chromium and its driver; on Debian: apt-get install \
    --no-install-recommends chromium chromium-driver (./check does it)";
/// Longest wait for something to show on the page.
const PATIENCE: Duration = Duration::from_secs(60);
/// Key under which the protocol names an element.
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";

/// A process that ends with its owner.
struct Owned(Child);

impl Drop for Owned {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// `hardpan serve` on a free port.
pub(crate) struct Served {
    process: Owned,
    pub(crate) url: String,
}

impl Served {
    /// The number of its process.
    #[allow(dead_code)]
    pub(crate) fn number(&self) -> u32 {
        self.process.0.id()
    }

    pub(crate) fn demo() -> Self {
        Self::with(&[])
    }

    pub(crate) fn with(arguments: &[&str]) -> Self {
        Self::at("127.0.0.1:0", arguments)
    }

    /// On an address of one's own, such as one that was served before.
    pub(crate) fn at(address: &str, arguments: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_hardpan"))
            .arg("serve")
            .args(arguments)
            .args(["--listen", address])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        let out = child.stdout.take().expect("its output is piped");
        let mut line = String::new();
        BufReader::new(out).read_line(&mut line).expect("it says its address");
        let url = line.trim().trim_end_matches('/').to_owned();
        let is_own =
            ["http://127.0.0.1:", "https://127.0.0.1:"].iter().any(|own| url.starts_with(own));
        assert!(is_own, "address: {url:?}");
        Self { process: Owned(child), url }
    }
}

/// A script that names what is shown beyond the right edge of the page.
#[allow(dead_code)]
pub(crate) const OVER_THE_EDGE: &str = "return [...document.body.querySelectorAll('*')]
    .filter((one) => one.getClientRects().length
      && one.getBoundingClientRect().right > innerWidth + 1)
    .map((one) => `${one.tagName}.${one.getAttribute('class')}#${one.id}`)";

/// Drivers that are started, one after the other, until one says its port.
const DRIVERS: u32 = 5;

/// One browser window.
pub(crate) struct Browser {
    _driver: Owned,
    /// The driver ends when nobody takes what it says.
    _said: BufReader<ChildStdout>,
    _profile: tempfile::TempDir,
    port: u16,
    session: String,
}

impl Browser {
    /// A window of a size in pixels.
    pub(crate) fn open(width: u32, height: u32) -> Self {
        // A driver takes a free port of one family of addresses and the same of the
        // other, and ends where that is taken: the next one finds another.
        let (driver, said, port) = (0..DRIVERS)
            .find_map(|_| Self::driver())
            .unwrap_or_else(|| panic!("{INSTALL}: the driver says no port"));
        let profile = tempfile::tempdir().expect("a folder for the profile");
        let mut browser =
            Self { _driver: driver, _said: said, _profile: profile, port, session: String::new() };
        browser.begin(width, height);
        browser
    }

    /// A driver with the port that it says; none where it ends without one.
    fn driver() -> Option<(Owned, BufReader<ChildStdout>, u16)> {
        let mut child = Command::new("chromedriver")
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| panic!("{INSTALL}: {error}"));
        let out = child.stdout.take().expect("its output is piped");
        let driver = Owned(child);
        let mut said = BufReader::new(out);
        let port = said.by_ref().lines().map_while(Result::ok).find_map(|line| {
            line.split("successfully on port ").nth(1)?.trim_end_matches('.').parse().ok()
        })?;
        Some((driver, said, port))
    }

    fn begin(&mut self, width: u32, height: u32) {
        let arguments = [
            "--headless".to_owned(),
            "--no-sandbox".to_owned(),
            "--disable-gpu".to_owned(),
            "--disable-quic".to_owned(),
            "--no-first-run".to_owned(),
            "--disable-background-networking".to_owned(),
            "--disable-component-update".to_owned(),
            "--disable-sync".to_owned(),
            "--hide-scrollbars".to_owned(),
            // The certificate of the tests is known to nobody.
            "--ignore-certificate-errors".to_owned(),
            format!("--window-size={width},{height}"),
            format!("--user-data-dir={}", self._profile.path().display()),
        ];
        let wanted = json!({ "capabilities": { "alwaysMatch": {
            "browserName": "chrome",
            "goog:loggingPrefs": { "browser": "ALL" },
            "goog:chromeOptions": { "args": arguments },
        } } });
        let answer = self.call("POST", "/session", Some(&wanted));
        let session = answer["sessionId"].as_str();
        self.session = session.unwrap_or_else(|| panic!("{INSTALL}: {answer}")).to_owned();
        self.resize(width, height);
    }

    /// A size of the page itself, whatever the window takes for its frame.
    pub(crate) fn resize(&self, width: u32, height: u32) {
        let metrics = json!({
            "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false,
        });
        self.command("Emulation.setDeviceMetricsOverride", &metrics);
    }

    pub(crate) fn go(&self, url: &str) {
        self.ask("POST", "/url", &json!({ "url": url }));
    }

    /// What a script returns.
    pub(crate) fn run(&self, script: &str) -> Value {
        self.ask("POST", "/execute/sync", &json!({ "script": script, "args": [] }))
    }

    /// What a script gives to its last argument in its own time.
    pub(crate) fn run_later(&self, script: &str) -> Value {
        self.ask("POST", "/execute/async", &json!({ "script": script, "args": [] }))
    }

    /// The text that an element shows.
    pub(crate) fn text(&self, selector: &str) -> String {
        let script = format!("return document.querySelector({selector:?})?.innerText ?? null");
        let text = self.run(&script);
        text.as_str().unwrap_or_else(|| panic!("nothing answers to {selector}")).to_owned()
    }

    fn element(&self, selector: &str) -> String {
        let how = json!({ "using": "css selector", "value": selector });
        let found = self.ask("POST", "/element", &how);
        let id = found[ELEMENT].as_str();
        id.unwrap_or_else(|| panic!("nothing answers to {selector}: {found}")).to_owned()
    }

    pub(crate) fn click(&self, selector: &str) {
        let id = self.element(selector);
        self.ask("POST", &format!("/element/{id}/click"), &json!({}));
    }

    /// Click what leads to another page, and wait until that page is there: the driver
    /// may answer a click before the browser has left.
    pub(crate) fn follow(&self, selector: &str) {
        self.run("document.documentElement.dataset.leaving = 'yes'; return true");
        self.click(selector);
        self.wait(
            "the next page",
            "return document.readyState === 'complete'
               && document.documentElement.dataset.leaving !== 'yes'",
        );
    }

    /// Type into an element; see the protocol for keys such as `\u{e014}`.
    pub(crate) fn keys(&self, selector: &str, text: &str) {
        let id = self.element(selector);
        self.ask("POST", &format!("/element/{id}/value"), &json!({ "text": text }));
    }

    /// Wait until a script returns true. Where the page goes away under the script,
    /// the next page is asked.
    pub(crate) fn wait(&self, what: &str, script: &str) {
        let begun = Instant::now();
        let path = format!("/session/{}/execute/sync", self.session);
        let body = json!({ "script": script, "args": [] });
        loop {
            let told = self.call("POST", &path, Some(&body));
            if told == Value::Bool(true) {
                return;
            }
            assert!(begun.elapsed() < PATIENCE, "waited for {what}, in vain: {told}");
            std::thread::sleep(Duration::from_millis(40));
        }
    }

    /// Wait until the field log of the book `north` is ready, and kept for want of a
    /// connection.
    pub(crate) fn wait_for_the_kept_log(&self) {
        self.wait(
            "the log",
            "return document.querySelector('.field-page')?.dataset.ready === 'yes'",
        );
        self.wait(
            "the kept page",
            "return !!(window.keptPage ??= 0) || (caches.match('/books/north/field')
                .then((one) => { window.keptPage = one ? 1 : 0; }), false)",
        );
    }

    /// Messages of the browser about the page: errors and warnings.
    pub(crate) fn complaints(&self) -> Vec<String> {
        let log = self.ask("POST", "/se/log", &json!({ "type": "browser" }));
        let lines = log.as_array().cloned().unwrap_or_default();
        let bad = |line: &Value| matches!(line["level"].as_str(), Some("SEVERE" | "WARNING"));
        lines.iter().filter(|line| bad(line)).map(ToString::to_string).collect()
    }

    /// A command of the browser's own.
    pub(crate) fn command(&self, name: &str, parameters: &Value) -> Value {
        let body = json!({ "cmd": name, "params": parameters });
        self.ask("POST", "/goog/cdp/execute", &body)
    }

    /// Follow the reader's wish for light or dark.
    pub(crate) fn colours(&self, scheme: &str) {
        let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        self.command("Emulation.setEmulatedMedia", &json!({ "features": features }));
    }

    /// Show the page as on A4 paper inside its margins, 186 mm at 96 dots to the inch, or
    /// as on a screen.
    pub(crate) fn paper(&self, is_paper: bool) {
        let media = if is_paper { "print" } else { "" };
        self.command("Emulation.setEmulatedMedia", &json!({ "media": media }));
        if is_paper {
            self.resize(703, 990);
        }
    }

    /// The page as it prints.
    pub(crate) fn print(&self) -> Vec<u8> {
        let pdf = self.ask("POST", "/print", &json!({ "background": true }));
        bytes(pdf.as_str().expect("the page prints"))
    }

    /// Keep a picture of the window where `HARDPAN_SCREENSHOTS` names a folder.
    pub(crate) fn picture(&self, name: &str) {
        if std::env::var_os("HARDPAN_SCREENSHOTS").is_some() {
            self.keep(&format!("{name}.png"), &self.window());
        }
    }

    /// What the window shows, as PNG.
    pub(crate) fn window(&self) -> Vec<u8> {
        let png = self.ask("GET", "/screenshot", &Value::Null);
        bytes(png.as_str().expect("the window shows something"))
    }

    /// Keep a file in the same folder.
    pub(crate) fn keep(&self, name: &str, file: &[u8]) {
        let folder = std::env::var_os("HARDPAN_SCREENSHOTS").map(PathBuf::from);
        if let Some(folder) = folder {
            std::fs::write(folder.join(name), file).expect("the folder stands");
        }
    }

    fn ask(&self, method: &str, path: &str, body: &Value) -> Value {
        let body = (!body.is_null()).then_some(body);
        let value = self.call(method, &format!("/session/{}{path}", self.session), body);
        assert!(value.get("error").is_none(), "{path}: {value}");
        value
    }

    fn call(&self, method: &str, path: &str, body: Option<&Value>) -> Value {
        let body = body.map(Value::to_string).unwrap_or_default();
        let (_, text) = request(self.port, method, path, &[], &body);
        let answer: Value = serde_json::from_str(&text).unwrap_or_else(|_| panic!("{text}"));
        answer["value"].clone()
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let path = format!("/session/{}", self.session);
        if !self.session.is_empty() && !std::thread::panicking() {
            let _ = self.call("DELETE", &path, None);
        }
    }
}

/// One request over a connection of its own: the head of the answer and its body.
pub(crate) fn request(
    port: u16,
    method: &str,
    path: &str,
    headers: &[(&str, &str)],
    body: &str,
) -> (String, String) {
    request_of(port, (method, path), headers, body.as_bytes())
}

/// The same with a body that is no text.
pub(crate) fn request_of(
    port: u16,
    (method, path): (&str, &str),
    headers: &[(&str, &str)],
    body: &[u8],
) -> (String, String) {
    let mut stream = TcpStream::connect(("127.0.0.1", port)).expect("somebody listens");
    let own = headers.iter().any(|(name, _)| *name == "Host");
    let mut head = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
    if !own {
        head.push_str(&format!("Host: 127.0.0.1:{port}\r\n"));
    }
    for (name, value) in headers {
        head.push_str(&format!("{name}: {value}\r\n"));
    }
    head.push_str(&format!("Content-Length: {}\r\n\r\n", body.len()));
    stream.write_all(head.as_bytes()).expect("it takes the request");
    // Who finds the body too large may answer and close before all of it is sent.
    let _ = stream.write_all(body);
    let mut answer = Vec::new();
    // The driver may leave the connection open: the length decides where one is stated.
    let mut part = [0_u8; 16 * 1024];
    loop {
        match stream.read(&mut part) {
            Ok(0) | Err(_) => break,
            Ok(count) => answer.extend_from_slice(&part[..count]),
        }
        if is_whole(&answer) {
            break;
        }
    }
    let text = String::from_utf8_lossy(&answer).into_owned();
    let (head, body) = text.split_once("\r\n\r\n").unwrap_or((&text, ""));
    (head.to_owned(), body.to_owned())
}

fn is_whole(answer: &[u8]) -> bool {
    let Some(end) = answer.windows(4).position(|part| part == b"\r\n\r\n") else { return false };
    let head = String::from_utf8_lossy(&answer[..end]).to_ascii_lowercase();
    let length = head.lines().find_map(|line| line.strip_prefix("content-length:"));
    let length: Option<usize> = length.and_then(|length| length.trim().parse().ok());
    length.is_some_and(|length| answer.len() >= end + 4 + length)
}

/// Bytes of a base-64 text, RFC 4648.
fn bytes(text: &str) -> Vec<u8> {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let place = |letter: u8| LETTERS.iter().position(|known| *known == letter);
    let (mut out, mut held, mut bits) = (Vec::new(), 0_usize, 0_u32);
    for value in text.bytes().filter_map(place) {
        held = (held << 6) | value;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            out.push(u8::try_from((held >> bits) & 0xff).expect("eight bits"));
            held &= (1 << bits) - 1;
        }
    }
    out
}
