//! Everything that is wrong with a record is told at once, each beside its value.

use crate::driver::request;
use crate::{entries, get, json, port, status, token, with_book};

/// What a form of the page says of a value.
fn said(page: &str, id: &str) -> Option<String> {
    let text = page.split(&format!("<p class=\"wrong\" id=\"{id}-wrong\">")).nth(1)?;
    assert!(page.contains(&format!("aria-describedby=\"{id}-wrong\"")), "{id}");
    Some(text.split('<').next().unwrap_or_default().to_owned())
}

/// What is sent, what is said beside which value, and how many are counted.
type Case = (&'static str, &'static [(&'static str, &'static str)], &'static str);

#[test]
fn a_form_tells_every_mistake_beside_its_value_and_keeps_what_was_typed() {
    let (_folder, served) = with_book();
    let token = token(&served);
    let own = [("Origin", served.url.as_str())];
    let send = |form: &str| {
        let body = format!("{form}&strip=North&token={token}");
        request(port(&served), "POST", "/books/north/add", &own, &body)
    };
    let cases: [Case; 5] = [
        (
            "record=inspection&at=2999-06-18T15:00Z&rut=12+mm&water=3&rut_lane=nose&by=",
            &[
                ("inspection-at", "2999-06-18T15:00:00Z lies ahead of the time of recording"),
                ("inspection-water", "`3` has no unit"),
                ("inspection-rut_station", "Must be stated where the depth is more than 0."),
                ("inspection-by", "Say who records it."),
            ],
            "4 values cannot be used: ",
        ),
        (
            "record=movement&kind=flight&tail=101&mass=heavy&rolled_to=700+m&by=Ada",
            &[
                ("movement-kind", "`flight` is none of landing, take-off."),
                ("movement-at", "Is not stated."),
                ("movement-mass", "`heavy`"),
                ("movement-rolled_from", "Must be stated with the other end of the stretch."),
            ],
            "4 values cannot be used: ",
        ),
        (
            "record=damage&tail=101&date=soon&zone=flap&phase=taxi&size=30&by=Ada",
            &[("damage-date", "`soon` is no date"), ("damage-size", "`30` has no unit")],
            "2 values cannot be used: ",
        ),
        (
            "record=repair&date=2026-06-10&from=690+m&to=600+m&by=Ada",
            &[("repair-to", "600 m lies before 690 m."), ("repair-what", "Is not stated.")],
            "2 values cannot be used: ",
        ),
        (
            "record=closure&action=closed&from=noon&reason=rain&by=Ada",
            &[("closure-from", "`noon` is no date and time")],
            "1 value cannot be used: ",
        ),
    ];
    for (form, wrong, count) in cases {
        let answer = send(form);
        assert_eq!(status(&answer), "422", "{form}");
        let page = answer.1;
        assert!(page.contains("Not recorded.") && page.contains(count), "{form}: {page}");
        for (id, what) in wrong {
            let told = said(&page, id).unwrap_or_else(|| panic!("{id}: {page}"));
            assert!(told.starts_with(what), "{id}: {told}");
            assert!(page.contains(&format!("href=\"#{id}\"")), "no way to {id}");
        }
        let marked = page.matches("aria-invalid=\"true\"").count();
        assert_eq!(marked, wrong.len(), "{form}: only what is wrong is marked");
    }
    let page = send("record=inspection&rut=12+mm&water=3&remarks=near+%22B%22&by=Ada").1;
    for kept in ["value=\"12 mm\"", "value=\"3\"", "value=\"near &quot;B&quot;\"", "value=\"Ada\""]
    {
        assert!(page.contains(kept), "{kept}: {page}");
    }
    assert_eq!(entries(&served), 1, "something was recorded");
}

#[test]
fn a_program_is_told_every_mistake_by_its_key() {
    let (_folder, served) = with_book();
    let token = json(&get(&served, "/api/session"))["token"].as_str().expect("one").to_owned();
    let own = [("Origin", served.url.as_str()), ("X-Hardpan-Token", token.as_str())];
    let sent = "{\"mark\": \"field-0001\", \"record\": \"inspection\", \"by\": \"Ada\", \"fields\": \
                {\"strip\": \"North\", \"at\": \"noon\", \"rut\": \"12 mm\", \"water\": \"3\", \
                \"rut_lane\": \"nose\"}}";
    let answer = request(port(&served), "POST", "/api/books/north/entries", &own, sent);
    assert_eq!(status(&answer), "422", "{}", answer.1);
    let told = json(&answer);
    let mistakes = told["mistakes"].as_array().expect("mistakes").iter();
    let keys: Vec<&str> = mistakes.filter_map(|one| one["key"].as_str()).collect();
    assert_eq!(keys, ["at", "water", "rut_station"], "{told}");
    let error = told["error"].as_str().expect("a sentence");
    assert!(error.contains("deepest water: `3` has no unit"), "{error}");
    assert!(error.ends_with("station of the rut: must be stated where the depth is more than 0."));
    assert_eq!(entries(&served), 1, "something was recorded");
}
