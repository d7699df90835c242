//! A picture by a plain form, as a browser without script sends it.

use crate::driver::{Served, request_of};
use crate::{entries, get, json, port, status, token, with_book};

const PAGE: &str = "/books/north/entries/1/picture";

fn sent(served: &Served, path: &str, values: &[(&str, &str)], picture: &[u8]) -> (String, String) {
    let own =
        [("Origin", served.url.as_str()), ("Content-Type", "multipart/form-data; boundary=x")];
    let values: String = values
        .iter()
        .map(|(name, value)| {
            format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n")
        })
        .collect();
    let file = "--x\r\nContent-Disposition: form-data; name=\"picture\"; filename=\"rut.png\"\r\n\
                Content-Type: image/png\r\n\r\n";
    let body = [values.as_bytes(), file.as_bytes(), picture, b"\r\n--x--\r\n"].concat();
    request_of(port(served), ("POST", path), &own, &body)
}

fn mark(served: &Served) -> String {
    let (_, page) = get(served, PAGE);
    let mark = page.split("name=\"mark\" value=\"").nth(1).and_then(|rest| rest.split('"').next());
    mark.unwrap_or_else(|| panic!("the form has a mark: {page}")).to_owned()
}

#[test]
fn a_plain_form_keeps_a_picture_once() {
    let (_folder, served) = with_book();
    let screens = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/src");
    let picture = std::fs::read(screens.join("screens/field.png")).expect("a picture");
    let book = get(&served, "/books/north").1;
    assert!(book.contains(&format!("href=\"{PAGE}\"")), "{book}");
    let (token, mark) = (token(&served), mark(&served));
    let good = [("token", &*token), ("mark", &mark), ("shown", "the rut"), ("by", "Ada")];
    for _ in 0..2 {
        let answer = sent(&served, PAGE, &good, &picture);
        assert_eq!(status(&answer), "303", "{}", answer.1);
        assert_eq!(entries(&served), 2, "sent twice, it stands once");
    }
    let book = get(&served, "/books/north").1;
    assert!(book.contains("alt=\"the rut; inspection of North"), "{book}");
    let kept = &json(&get(&served, "/api/books/north"))["picture"][0];
    assert_eq!((kept["file"].as_str(), kept["of_entry"].as_i64()), (Some("rut.png"), Some(1)));
}

#[test]
fn a_plain_form_is_refused_as_any_other() {
    let (_folder, served) = with_book();
    let (token, mark) = (token(&served), mark(&served));
    let good = [("token", &*token), ("mark", &mark), ("shown", "the rut"), ("by", "Ada")];
    let without = |name: &str| good.into_iter().filter(|(own, _)| *own != name).collect::<Vec<_>>();
    let large = vec![0x89; 8 * 1024 * 1024 + 1];
    for (values, picture, code, said) in [
        (without("token"), &b"x"[..], "403", "open it again"),
        (without("shown"), b"x", "422", "Say what it shows."),
        (without("by"), b"x", "422", "Say who records it."),
        (good.to_vec(), b"", "422", "choose one"),
        (good.to_vec(), b"<svg onload=\"x()\"/>", "422", "JPEG, PNG or WebP"),
        (good.to_vec(), &large, "413", "8 MiB"),
    ] {
        let answer = sent(&served, PAGE, &values, picture);
        assert_eq!(status(&answer), code, "{said}: {}", answer.1);
        assert!(answer.1.contains(said), "{said}: {}", answer.1);
    }
    for none in ["9", "x", "-1"] {
        let path = format!("/books/north/entries/{none}/picture");
        let found = get(&served, &path);
        assert!(["404", "400"].contains(&status(&found)), "{none}");
        let answer = sent(&served, &path, &good, b"x");
        assert!(["404", "400", "422"].contains(&status(&answer)), "{none}: {}", answer.0);
    }
    assert_eq!(entries(&served), 1);
}
