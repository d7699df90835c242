//! Where two documents differ, in words.

use hardpan_quantity::counted;
use serde_json::Value;

/// Every value that is not the same in both, by its path; verdicts first, then
/// what the answer says, then the rest.
pub(super) fn differences(before: &Value, now: &Value) -> Vec<String> {
    let mut found = Vec::new();
    compare("", before, now, &mut found);
    found.sort_by_key(|difference| weight(difference));
    found
}

/// Where a difference stands among the others.
fn weight(difference: &str) -> u8 {
    const ANSWER: [&str; 4] = ["answer", "take_off_mass", "landing_mass", "tyre"];
    let path = difference.split(':').next().unwrap_or_default();
    let is_answer = ANSWER.iter().any(|part| path.starts_with(part));
    match (path.ends_with("verdict"), is_answer) {
        (true, _) => 0,
        (_, true) => 1,
        _ => 2,
    }
}

fn compare(path: &str, before: &Value, now: &Value, found: &mut Vec<String>) {
    match (before, now) {
        (Value::Object(old), Value::Object(new)) => {
            let added = new.keys().filter(|key| !old.contains_key(*key));
            for key in old.keys().chain(added) {
                let place = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                let of = |map: &serde_json::Map<String, Value>| map.get(key).cloned();
                compare(
                    &place,
                    &of(old).unwrap_or(Value::Null),
                    &of(new).unwrap_or(Value::Null),
                    found,
                );
            }
        }
        (Value::Array(old), Value::Array(new)) if old.len() == new.len() => {
            for (index, (old, new)) in old.iter().zip(new).enumerate() {
                compare(&format!("{path}[{}]", name(old, index)), old, new, found);
            }
        }
        (Value::Array(old), Value::Array(new)) => {
            let before = counted(old.len(), "entry", "entries");
            found.push(format!("{path}: {before}, now {}", new.len()));
        }
        (old, new) if old != new => found.push(format!("{path}: {old}, now {new}")),
        _ => {}
    }
}

/// What an entry of a list is called: by its code or name, or by its number.
fn name(value: &Value, index: usize) -> String {
    let text = |key: &str| value.get(key).and_then(Value::as_str).map(str::to_owned);
    text("code").or_else(|| text("name")).unwrap_or_else(|| index.to_string())
}

#[cfg(test)]
mod tests {
    use super::differences;
    use serde_json::json;

    #[test]
    fn each_difference_is_told_by_its_place() {
        let before = json!({"a": 1, "findings": [{"code": "G20", "value": 3.0}], "rows": [1]});
        let now = json!({"a": 1, "findings": [{"code": "G20", "value": 4.0}], "rows": [1, 2]});
        let told = differences(&before, &now);
        assert_eq!(told, ["findings[G20].value: 3.0, now 4.0", "rows: 1 entry, now 2"]);
        assert!(differences(&before, &before).is_empty());
    }
}
