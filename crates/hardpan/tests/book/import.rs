//! Files that are taken over: all of one, or every mistake of it.

use crate::book;

/// A file with mistakes is refused whole: each is told, no book is made of it, and one
/// that stands is left as it was.
#[test]
fn every_mistake_of_a_file_is_told_and_nothing_of_it_recorded() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let table = folder.path().join("movements.csv");
    let from = table.to_string_lossy().into_owned();
    let good = "North,102,landing,2026-06-19T15:00Z,39 t\n";
    let import = |rows: &[u8]| {
        std::fs::write(&table, [b"strip,tail,kind,at,mass\n", rows].concat()).expect("writable");
        book(&file, &["import", &from, "--kind", "movement", "--by", "Ada"])
    };
    let wrong = format!("{good}North,102,flight,2026-06-19T15:00Z,39\n{good}North\n");
    let late = good.replace("2026", "2999").repeat(2);
    let many = good.replace("39 t", "39").repeat(60);
    let cases: [(&[u8], &[&str]); 4] = [
        (
            wrong.as_bytes(),
            &[
                "movements.csv has 3 mistakes; nothing was recorded:\n",
                "movements.csv: line 3, column 11: movement, kind: `flight`",
                "movements.csv: line 3, column 36: movement, mass: `39` has no unit",
                "movements.csv: line 5, column 1: this row of the CSV has 1 cell for 5 headings;",
                "Mend the file and take it over again.",
            ],
        ),
        (late.as_bytes(), &["line 2, column 1: movement, at", "line 3, column 1: movement, at"]),
        (many.as_bytes(), &["has 60 mistakes", "line 51, column 37: ", "\n  and 10 more\n"]),
        (b"North,10\xe9", &["has a mistake", "line 2, column 9: the byte 0xe9 is no text"]),
    ];
    for (rows, said) in cases {
        let (code, _, err) = import(rows);
        assert_eq!(code, Some(2), "{err}");
        for word in said {
            assert!(err.contains(word), "{word}: {err}");
        }
        assert!(!file.exists(), "a book of a file with mistakes");
    }
    assert_eq!(import(good.as_bytes()).0, Some(0));
    let (code, out, err) = import(good.as_bytes());
    let said = "nothing was recorded: one record that entry 1 holds word for word\n";
    assert!(code == Some(0) && out.contains(said), "{out}{err}");
    assert_eq!(import(wrong.as_bytes()).0, Some(2));
    assert!(book(&file, &["verify"]).1.contains("1 entry,"));
}
