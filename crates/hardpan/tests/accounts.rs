//! The page where other machines can reach it: who is let in, who may record
//! what, and what happens to those who guess. The certificate is for tests only
//! and known to everybody.

use serde_json::Value;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use tokio_rustls::rustls::pki_types::pem::PemObject as _;
use tokio_rustls::rustls::pki_types::{CertificateDer, ServerName};
use tokio_rustls::rustls::{ClientConfig, ClientConnection, RootCertStore, StreamOwned, crypto};

const PASSWORD: &str = "gravel, grass and dirt";

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/certificate").join(name)
}

fn hardpan() -> Command {
    Command::new(env!("CARGO_BIN_EXE_hardpan"))
}

fn add(accounts: &Path, name: &str, role: &str, password: &str) -> (bool, String) {
    let mut child = hardpan()
        .arg("account")
        .arg(accounts)
        .args(["add", name, "--role", role])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it starts");
    let input = child.stdin.as_mut().expect("its input is piped");
    writeln!(input, "{password}").expect("it reads");
    let output = child.wait_with_output().expect("it ends");
    (output.status.success(), String::from_utf8_lossy(&output.stderr).into_owned())
}

struct Guarded {
    process: Child,
    port: u16,
    _folder: tempfile::TempDir,
    client: Arc<ClientConfig>,
}

impl Drop for Guarded {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

struct Answer {
    status: u16,
    head: String,
    body: String,
}

impl Guarded {
    fn start() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let accounts = folder.path().join("accounts.json");
        for role in ["viewer", "surveyor", "dispatcher", "admin"] {
            assert!(add(&accounts, role, role, PASSWORD).0);
        }
        let book = folder.path().join("north.book");
        let made = hardpan()
            .arg("book")
            .arg(&book)
            .args(["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z"])
            .args(["rut=0 mm", "water=0 mm", "--by", "Ada"])
            .stdout(Stdio::null())
            .status();
        assert!(made.expect("it runs").success());
        let mut process = hardpan()
            .arg("serve")
            .arg(folder.path())
            .args(["--listen", "127.0.0.1:0", "--accounts"])
            .arg(&accounts)
            .arg("--certificate")
            .arg(file("for_tests_only.pem"))
            .arg("--key")
            .arg(file("for_tests_only.key"))
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("it starts");
        let mut line = String::new();
        let out = process.stdout.take().expect("its output is piped");
        BufReader::new(out).read_line(&mut line).expect("it says its address");
        let address = line.trim().trim_end_matches('/');
        let port = address.strip_prefix("https://127.0.0.1:").and_then(|port| port.parse().ok());
        let port = port.unwrap_or_else(|| panic!("encrypted: {line}"));
        let mut roots = RootCertStore::empty();
        let certificate = CertificateDer::from_pem_file(file("for_tests_only.pem"));
        roots.add(certificate.expect("a certificate")).expect("it is trusted here");
        let client =
            ClientConfig::builder_with_provider(Arc::new(crypto::ring::default_provider()))
                .with_safe_default_protocol_versions()
                .expect("versions")
                .with_root_certificates(roots)
                .with_no_client_auth();
        Self { process, port, _folder: folder, client: Arc::new(client) }
    }

    fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> Answer {
        let name = ServerName::try_from("127.0.0.1").expect("a name");
        let connection = ClientConnection::new(Arc::clone(&self.client), name).expect("a client");
        let stream = TcpStream::connect(("127.0.0.1", self.port)).expect("it listens");
        let mut stream = StreamOwned::new(connection, stream);
        let form = [("Content-Type", "application/x-www-form-urlencoded")];
        let is_stated = headers.iter().any(|(name, _)| *name == "Content-Type");
        let own = if is_stated { &[][..] } else { &form[..] };
        let own_host = format!("127.0.0.1:{}", self.port);
        let host = headers.iter().find(|(name, _)| *name == "Host").map_or(&*own_host, |one| one.1);
        let headers = headers.iter().filter(|(name, _)| *name != "Host");
        let more: String =
            own.iter().chain(headers).map(|(name, value)| format!("{name}: {value}\r\n")).collect();
        write!(
            stream,
            "{method} {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\
             Content-Length: {}\r\n{more}\r\n{body}",
            body.len()
        )
        .expect("it takes the request");
        let mut text = Vec::new();
        // A peer that closes without saying so is no failure of the answer.
        let _ = stream.read_to_end(&mut text);
        let text = String::from_utf8_lossy(&text).into_owned();
        let (head, body) = text.split_once("\r\n\r\n").unwrap_or((&text, ""));
        let status = head.split(' ').nth(1).and_then(|code| code.parse().ok()).unwrap_or_default();
        Answer { status, head: head.to_owned(), body: body.to_owned() }
    }

    fn get(&self, path: &str, cookie: &str) -> Answer {
        self.ask("GET", path, &[("Cookie", cookie)], "")
    }

    fn post(&self, path: &str, cookie: &str, body: &str) -> Answer {
        let origin = format!("https://127.0.0.1:{}", self.port);
        self.ask("POST", path, &[("Cookie", cookie), ("Origin", &origin)], body)
    }

    fn try_password(&self, name: &str, password: &str) -> Answer {
        self.post("/sign-in", "", &format!("name={name}&password={password}&to=/books/north"))
    }

    /// The cookie of a session.
    fn sign_in(&self, name: &str) -> String {
        let answer = self.try_password(name, &PASSWORD.replace(' ', "+").replace(',', "%2C"));
        assert_eq!(answer.status, 303, "{}", answer.head);
        assert!(answer.head.contains("location: /books/north"), "{}", answer.head);
        let kept = answer.head.lines().find_map(|line| line.strip_prefix("set-cookie: "));
        let kept = kept.expect("a cookie");
        assert!(kept.contains("Secure; HttpOnly; SameSite=Strict"), "{kept}");
        kept.split(';').next().expect("name and value").to_owned()
    }

    fn token(&self, cookie: &str) -> String {
        let page = self.get("/books/north", cookie).body;
        let rest = page.split("name=\"token\" value=\"").nth(1).expect("a token");
        rest.split('"').next().expect("its text").to_owned()
    }
}

#[test]
fn browsers_are_told_to_ask_in_no_other_way_than_encrypted() {
    let served = Guarded::start();
    let rule = "strict-transport-security: max-age=31536000";
    for path in ["/sign-in", "/", "/api/entries", "/assets/page.css", "/nothing-here"] {
        let answer = served.ask("GET", path, &[("Host", "strip.example:8642")], "");
        assert!(answer.head.to_ascii_lowercase().contains(rule), "{path}: {}", answer.head);
    }
    // Kept for this machine it would bind its other pages too.
    for host in ["localhost:8642", "127.0.0.1"] {
        let answer = served.ask("GET", "/sign-in", &[("Host", host)], "");
        assert!(!answer.head.to_ascii_lowercase().contains("strict-transport"), "{host}");
    }
}

#[test]
fn nobody_is_let_in_without_an_account() {
    let served = Guarded::start();
    let page = served.get("/books/north?inspected-within=7+d", "");
    assert_eq!(page.status, 303);
    assert!(
        page.head.contains("location: /sign-in?to=%2Fbooks%2Fnorth%3Finspected-within%3D7%2Bd")
    );
    for path in ["/api/entries", "/api/books/north", "/api/openapi.json"] {
        let answer = served.get(path, "__Host-hardpan=0123");
        assert_eq!(answer.status, 401, "{path}");
        assert!(!answer.body.contains("North"), "{path}");
    }
    assert_eq!(served.post("/books/north/add", "", "record=movement").status, 401);
    assert_eq!(served.get("/assets/page.css", "").status, 200);
    assert!(served.get("/sign-in", "").body.contains("type=\"password\""));
    let plain = TcpStream::connect(("127.0.0.1", served.port)).and_then(|mut stream| {
        stream.write_all(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")?;
        let mut text = String::new();
        let _ = stream.read_to_string(&mut text);
        Ok(text)
    });
    assert!(!plain.unwrap_or_default().contains("HTTP/1.1 200"), "nothing goes unencrypted");
}

#[test]
fn each_role_records_what_it_may_under_its_own_name() {
    let served = Guarded::start();
    let movement = "record=movement&strip=North&kind=landing&tail=101&at=2026-06-18T15%3A00%3A00Z\
                    &mass=39.6+t&by=Somebody+Else";
    let inspection = "record=inspection&strip=North&at=2026-06-18T15%3A00%3A00Z&rut=0+mm&water=0+mm\
                      &by=x";
    for (name, may_movement, may_inspection) in
        [("surveyor", 403, 303), ("dispatcher", 303, 403), ("admin", 303, 303)]
    {
        let cookie = served.sign_in(name);
        let token = served.token(&cookie);
        for (form, status) in [(movement, may_movement), (inspection, may_inspection)] {
            let answer = served.post("/books/north/add", &cookie, &format!("{form}&token={token}"));
            assert_eq!(answer.status, status, "{name}: {}", answer.body);
        }
        let foreign = served.ask(
            "POST",
            "/books/north/add",
            &[("Cookie", &cookie), ("Origin", "https://example.org")],
            &format!("{movement}&token={token}"),
        );
        assert_eq!(foreign.status, 403, "from another site");
        let without = served.post("/books/north/add", &cookie, movement);
        assert_eq!(without.status, 403, "without the token of the session");
    }
    let viewer = served.sign_in("viewer");
    let page = served.get("/books/north", &viewer).body;
    assert!(page.contains("records nothing") && !page.contains("Record a movement"));
    assert!(page.contains("viewer, viewer"), "who is signed in stands on the page");
    let book: Value =
        serde_json::from_str(&served.get("/api/books/north", &viewer).body).expect("JSON");
    let authors: Vec<&str> = book["movement"]
        .as_array()
        .expect("movements")
        .iter()
        .filter_map(|one| one["recorded_by"].as_str())
        .collect();
    assert_eq!(authors, ["dispatcher", "admin"], "the account is the author, not the form");
}

/// Who may record something corrects and withdraws it, under their own name; who plans
/// flights keeps their assessments.
#[test]
fn each_role_puts_right_and_keeps_what_it_may() {
    let served = Guarded::start();
    let form = "strip=North&at=2026-06-18T09%3A00%3A00Z&rut=0+mm&water=4+mm\
                &water_station=640+m&why=seen+again&by=x";
    let mut entry = 1;
    for (name, may_mend, may_keep) in [
        ("viewer", false, false),
        ("dispatcher", false, true),
        ("surveyor", true, false),
        ("admin", true, true),
    ] {
        let cookie = served.sign_in(name);
        let session = served.get("/api/session", &cookie).body;
        let session: Value = serde_json::from_str(&session).expect("JSON");
        let token = session["token"].as_str().expect("a token");
        let page = served.get(&format!("/books/north/entries/{entry}"), &cookie).body;
        assert_eq!(page.contains("Correct this entry"), may_mend, "{name}: {page}");
        let origin = format!("https://127.0.0.1:{}", served.port);
        let own = [("Cookie", cookie.as_str()), ("Origin", &origin), ("X-Hardpan-Token", token)];
        let keeping = "{\"book\": \"north\", \"identifier\": \"0\"}";
        let answer = served.ask("POST", "/api/flights/none/keep", &own, keeping);
        // There is no flight of that name, which only who may keep one is told.
        assert_eq!(answer.status, if may_keep { 404 } else { 403 }, "{name}: {}", answer.body);
        let path = format!("/books/north/entries/{entry}/correct");
        let changed = form.replace("4+mm", &format!("{}+mm", 4 + entry));
        let answer = served.post(&path, &cookie, &format!("{changed}&token={token}"));
        assert_eq!(answer.status, if may_mend { 303 } else { 403 }, "{name}: {}", answer.body);
        let path = format!("/api/books/north/entries/{}/withdraw", entry + 1);
        let answer = served.ask("POST", &path, &own, "{\"why\": \"another strip\"}");
        assert_eq!(answer.status, if may_mend { 201 } else { 404 }, "{name}: {}", answer.body);
        if may_mend {
            let again = "record=inspection&strip=North&at=2026-06-18T09%3A00%3A00Z&rut=0+mm\
                         &water=0+mm&by=x";
            let answer =
                served.post("/books/north/add", &cookie, &format!("{again}&token={token}"));
            assert_eq!(answer.status, 303, "{name}: {}", answer.body);
            entry += 3;
        }
    }
    let viewer = served.sign_in("viewer");
    let told = |number: usize| {
        let text = served.get(&format!("/api/books/north/entries/{number}"), &viewer).body;
        serde_json::from_str::<Value>(&text).expect("JSON")["recorded_by"].clone()
    };
    let authors: Vec<Value> = (1..=7).map(told).collect();
    let expected = ["Ada", "surveyor", "surveyor", "surveyor", "admin", "admin", "admin"];
    assert_eq!(authors, expected, "the account is the author, not the form");
}

/// Nobody records a picture of what they may not record, and without an account none
/// is seen.
#[test]
fn pictures_follow_the_roles_of_what_they_show() {
    let served = Guarded::start();
    let surveyor = served.sign_in("surveyor");
    let inspection =
        "record=inspection&strip=North&at=2026-06-18T15%3A00%3A00Z&rut=0+mm&water=0+mm";
    let form = format!("{inspection}&token={}", served.token(&surveyor));
    assert_eq!(served.post("/books/north/add", &surveyor, &form).status, 303);
    let book = served.get("/api/books/north", &surveyor).body;
    let book: Value = serde_json::from_str(&book).expect("JSON");
    let id = book["inspection"].as_array().and_then(|all| all.last()).map(|one| &one["id"]);
    let id = id.expect("an inspection");
    let path = format!("/api/books/north/entries/{id}/pictures?mark=field-0001&shown=rut");
    let origin = format!("https://127.0.0.1:{}", served.port);
    // What is sent is no picture: who may record it is told so, the others are not asked.
    for (name, status) in [("surveyor", 422), ("dispatcher", 403), ("viewer", 403)] {
        let cookie = served.sign_in(name);
        let session = served.get("/api/session", &cookie).body;
        let session: Value = serde_json::from_str(&session).expect("JSON");
        let token = session["token"].as_str().expect("a token");
        let own = [("Cookie", cookie.as_str()), ("Origin", &origin), ("X-Hardpan-Token", token)];
        let answer = served.ask("POST", &path, &own, "no picture");
        assert_eq!(answer.status, status, "{name}: {}", answer.body);
        let answer = served.ask("POST", &path, &own[..2], "no picture");
        assert_eq!(answer.status, 403, "without the token of the session");
    }
    assert_eq!(served.post(&path, "", "no picture").status, 401);
    let digest = "0".repeat(64);
    assert_eq!(served.get(&format!("/books/north/pictures/{digest}"), "").status, 303);
}

/// A file is taken over by who may record every row of it, under the name of the account.
#[test]
fn a_file_follows_the_roles_of_what_it_holds() {
    let served = Guarded::start();
    let origin = format!("https://127.0.0.1:{}", served.port);
    let csv = "strip,tail,kind,at,mass\nNorth,101,landing,2026-06-18T15:00Z,39.6 t\n";
    let import = |cookie: &str, token: &str, by: &str| {
        let part = |name: &str, value: &str| {
            format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n")
        };
        let file = part("file\"; filename=\"movements.csv", csv);
        let values = part("token", token) + &part("kind", "movement") + &part("by", by);
        let own = [
            ("Cookie", cookie),
            ("Origin", &origin),
            ("Content-Type", "multipart/form-data; boundary=x"),
        ];
        served.ask("POST", "/books/north/import", &own, &(values + &file + "--x--\r\n"))
    };
    let other = served.token(&served.sign_in("admin"));
    for (name, status) in [("viewer", 403), ("surveyor", 403), ("dispatcher", 303), ("admin", 303)]
    {
        let cookie = served.sign_in(name);
        let session = served.get("/api/session", &cookie).body;
        let session: Value = serde_json::from_str(&session).expect("JSON");
        let token = session["token"].as_str().expect("a token");
        let answer = import(&cookie, token, "Somebody Else");
        assert_eq!(answer.status, status, "{name}: {}", answer.body);
        if name == "surveyor" {
            let said = "movements.csv: line 2, column 1: a surveyor may not record a movement";
            assert!(answer.body.contains(said), "{}", answer.body);
        }
        assert_eq!(import(&cookie, &other, "x").status, 403, "the token of another session");
    }
    assert_eq!(import("", &other, "x").status, 401);
    let viewer = served.sign_in("viewer");
    assert!(served.get("/books/north/import", &viewer).body.contains("records nothing"));
    let book = served.get("/api/books/north", &viewer).body;
    let book: Value = serde_json::from_str(&book).expect("JSON");
    let all = book["movement"].as_array().expect("movements");
    let authors: Vec<_> = all.iter().filter_map(|one| one["recorded_by"].as_str()).collect();
    // What stands in the book already is not recorded again, whoever brings it.
    assert_eq!(authors, ["dispatcher"]);
}

#[test]
fn a_token_of_one_session_is_none_of_another_and_signing_out_ends_it() {
    let served = Guarded::start();
    let (one, two) = (served.sign_in("admin"), served.sign_in("dispatcher"));
    assert_ne!(served.token(&one), served.token(&two));
    let form =
        "record=closure&strip=North&action=closed&from=2026-06-18T15%3A00%3A00Z&reason=x&by=x";
    let crossed = format!("{form}&token={}", served.token(&two));
    assert_eq!(served.post("/books/north/add", &one, &crossed).status, 403);
    served.post("/sign-out", &one, "token=wrong");
    assert_eq!(served.get("/books/north", &one).status, 200, "only its own form ends a session");
    let token = served.token(&one);
    assert_eq!(served.post("/sign-out", &one, &format!("token={token}")).status, 303);
    assert_eq!(served.get("/books/north", &one).status, 303);
    assert_eq!(served.get("/books/north", &two).status, 200);
}

#[test]
fn who_guesses_has_to_wait() {
    let served = Guarded::start();
    for _ in 0..5 {
        assert_eq!(served.try_password("admin", "wrong").status, 403);
    }
    let answer = served.try_password("admin", &PASSWORD.replace(' ', "+").replace(',', "%2C"));
    assert_eq!(answer.status, 429, "even the right one waits");
    assert!(answer.head.contains("retry-after") && answer.body.contains("wait"));
    let other = served.try_password("nobody", "wrong");
    assert_eq!(other.status, 429, "the machine waits whatever name it tries");
    assert!(!answer.head.contains("set-cookie"));
}

#[test]
fn requests_in_a_row_are_bounded() {
    let served = Guarded::start();
    let readers: Vec<_> = std::thread::scope(|scope| {
        let ask = || (0..80).map(|_| served.get("/sign-in", "").status).collect::<Vec<_>>();
        let readers: Vec<_> = (0..4).map(|_| scope.spawn(ask)).collect();
        readers.into_iter().flat_map(|reader| reader.join().expect("a reader")).collect()
    });
    assert!(readers.contains(&429), "320 at once are too many");
    assert!(readers.iter().filter(|status| **status == 200).count() >= 100);
}

#[test]
fn an_accounts_file_holds_no_password_and_is_its_owners() {
    let folder = tempfile::tempdir().expect("a folder");
    let accounts = folder.path().join("accounts.json");
    assert!(add(&accounts, "Ada", "dispatcher", PASSWORD).0);
    let text = std::fs::read_to_string(&accounts).expect("a file");
    assert!(!text.contains("gravel") && text.contains("$argon2id$"), "{text}");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let mode = std::fs::metadata(&accounts).expect("a file").permissions().mode();
        assert_eq!(mode & 0o077, 0, "nobody else reads it");
    }
    for (name, role, password, word) in [
        ("Bob", "pilot", PASSWORD, "no role"),
        ("Bob", "viewer", "short", "12 to 200"),
        ("", "viewer", PASSWORD, "a name"),
    ] {
        let (done, said) = add(&accounts, name, role, password);
        assert!(!done && said.contains(word), "{said}");
    }
    let list = hardpan().arg("account").arg(&accounts).arg("list").output().expect("it runs");
    assert_eq!(String::from_utf8_lossy(&list.stdout), "Ada, dispatcher\n");
    let gone = hardpan().arg("account").arg(&accounts).args(["remove", "Ada"]).status();
    assert!(gone.expect("it runs").success());
    for (certificate, word) in
        [("for_tests_only.pem", "holds nobody"), ("../accounts.rs", "holds nobody")]
    {
        let out = hardpan()
            .args(["serve", "--accounts"])
            .arg(&accounts)
            .arg("--certificate")
            .arg(file(certificate))
            .arg("--key")
            .arg(file("for_tests_only.key"))
            .output()
            .expect("it runs");
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert!(out.status.code() == Some(2) && said.contains(word), "{said}");
    }
    assert!(add(&accounts, "Ada", "dispatcher", PASSWORD).0);
    for (certificate, key, word) in [
        ("../accounts.rs", "for_tests_only.key", "certificate"),
        ("for_tests_only.pem", "for_tests_only.pem", "key"),
    ] {
        let out = hardpan()
            .args(["serve", "--listen", "0.0.0.0:0", "--accounts"])
            .arg(&accounts)
            .arg("--certificate")
            .arg(file(certificate))
            .arg("--key")
            .arg(file(key))
            .output()
            .expect("it runs");
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert!(out.status.code() == Some(2) && said.contains(word), "{said}");
    }
}

/// The command lines of the service unit and of the container file, started as they are
/// in a folder that is not there, are understood down to that folder.
#[test]
fn the_service_unit_and_the_container_file_start_what_there_is() {
    let nowhere = tempfile::tempdir().expect("a folder").path().join("nowhere");
    let nowhere = nowhere.to_string_lossy();
    for (name, home) in [("hardpan.service", "/var/lib/hardpan"), ("Containerfile", "/flights")] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../packaging").join(name);
        let text = std::fs::read_to_string(&path).expect("it stands there");
        let after = text.split("hardpan serve").nth(1).expect("it serves");
        let after = after.replace("\\\n#", " ");
        let line = after.lines().next().expect("a line").replace(home, &nowhere);
        let words: Vec<&str> = line.split_whitespace().collect();
        assert!(words.iter().filter(|word| word.starts_with("--")).count() >= 4, "{words:?}");
        let started = hardpan().arg("serve").args(&words).output().expect("it runs");
        let told = String::from_utf8_lossy(&started.stderr);
        assert_eq!(started.status.code(), Some(2), "{name}: {told}");
        assert!(told.contains("not a folder to serve"), "{name}: {told}");
    }
}

/// `cargo dev check` holds what it copies and its toolchain to the sources.
#[test]
fn the_container_file_and_the_service_unit_run_what_is_built() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let read = |name: &str| std::fs::read_to_string(top.join(name)).expect("it stands there");
    let text = read("packaging/Containerfile");
    let after = |mark: &str| {
        let rest = text.split(mark).nth(1).unwrap_or_else(|| panic!("it says {mark}"));
        rest.split_whitespace().next().unwrap_or_default().to_owned()
    };
    let package = after("--path ");
    let package: toml::Table = read(&format!("{package}/Cargo.toml")).parse().expect("a package");
    let name = package["package"]["name"].as_str().expect("a name");
    let program = Path::new(env!("CARGO_BIN_EXE_hardpan")).file_stem();
    assert_eq!(program.and_then(|stem| stem.to_str()), Some(name));
    assert_eq!(after("COPY --from=build "), format!("/out/bin/{name}"));
    assert!(text.contains(&format!("ENTRYPOINT [\"{name}\"]")));
    assert!(after("--root ").starts_with("/out"));
    let unit = read("packaging/hardpan.service");
    let started = unit.lines().find_map(|line| line.strip_prefix("ExecStart=")).expect("it starts");
    assert!(
        started
            .split_whitespace()
            .next()
            .is_some_and(|path| path.ends_with(&format!("/bin/{name}")))
    );
}
