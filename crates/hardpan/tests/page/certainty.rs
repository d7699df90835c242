//! How sure an answer is and what would help, as pages: the same figures as the API.

use super::{Served, get, json, status};
use serde_json::Value;

fn page(served: &Served, name: &str) -> (String, Value) {
    let answer = get(served, &format!("/flights/demo.flight/{name}?take_off.mass=42.6+t"));
    assert_eq!(status(&answer), "200", "{}", answer.1);
    assert!(answer.1.contains("Planning aid only"), "the caution stands in {name}");
    let draws = if name == "confidence" { "&draws=512" } else { "" };
    let address = format!("/api/flights/demo.flight/{name}?take_off.mass=42.6+t{draws}");
    (answer.1, json(&get(served, &address)))
}

fn texts<'a>(list: &'a Value, key: &'a str) -> impl Iterator<Item = &'a str> {
    list.as_array().expect("a list").iter().filter_map(move |one| one[key].as_str())
}

#[test]
fn how_sure_an_answer_is_has_its_page() {
    let served = Served::demo();
    let (page, told) = page(&served, "confidence");
    let share = told["holds"]["share"].as_f64().expect("a share");
    assert!(page.contains(&format!("{:.1} %", share * 100.0)), "{share}");
    assert!(texts(&told["limits"], "code").count() > 20);
    for code in texts(&told["limits"], "code") {
        assert!(page.contains(code), "{code}");
    }
    for words in ["Both together hold", "What would make it surer", "verdict v-"] {
        assert!(page.contains(words), "{words}");
    }
}

#[test]
fn what_would_help_has_its_page() {
    let served = Served::demo();
    let (page, told) = page(&served, "remedies");
    assert!(page.contains("The shortest list that turns it"));
    let singles = told["singles"].as_array().expect("single changes");
    assert!(!singles.is_empty());
    let table = page.split("Each change by itself").nth(1).expect("the table");
    let table = table.split("</table>").next().expect("it ends");
    assert_eq!(table.matches("<tr>").count(), singles.len() + 1);
}
