//! Every mistake of a file is told at once, each with its place, and nothing of the file
//! is recorded. What is told was counted in the texts below by hand.

mod support;

use hardpan_book::{
    Book, ImportError, Kind, MOST_TOLD, Mistakes, OffGlobe, history_of_json, records_of_csv,
    records_of_geojson, taken_of, text_of,
};
use proptest::prelude::*;
use support::audit;

const HEAD: &str = "strip,tail,kind,at,mass,rolled_from\n";
const ROW: &str = "North,101,landing,2026-06-18T15:00Z,39.6 t,\n";

fn told(mistakes: &Mistakes) -> Vec<(u64, u64, String)> {
    let told = mistakes.told().iter();
    told.map(|one| (one.at.line, one.at.column, one.cause.to_string())).collect()
}

/// Each place in its order, and a word of what is said there.
fn assert_told(mistakes: &Mistakes, wanted: &[(u64, u64, &str)]) {
    let told = told(mistakes);
    assert_eq!(told.len(), wanted.len(), "{mistakes}");
    for ((line, column, said), (at, in_it, word)) in told.iter().zip(wanted) {
        assert_eq!((line, column), (at, in_it), "{mistakes}");
        assert!(said.contains(word), "{word}: {said}");
    }
}

#[test]
fn each_cell_of_a_table_that_cannot_be_used_is_told() {
    let text = format!(
        "{HEAD}{ROW}North,101,flight,yesterday,39.6,\n\nNorth,101\n{ROW}\
         \"Nor\nth\",101,landing,2026-06-18T15:00Z,-1 t,200 m\n,101,landing,,1 t,\n"
    );
    let mistakes = records_of_csv(Kind::Movement, &text).expect_err("it has mistakes");
    assert_told(
        &mistakes,
        &[
            (3, 11, "`flight` is none of landing, take-off"),
            (3, 18, "`yesterday` is no date and time"),
            (3, 28, "39.6"),
            (5, 1, "2 cells"),
            (7, 1, "rolled_to: must be stated with the other end of the stretch"),
            (8, 35, "must be more than 0"),
            (9, 1, "movement, strip: is not stated"),
            (9, 14, "movement, at: is not stated"),
        ],
    );
}

/// A heading that names nothing hides what stands under it: only that is told, and what
/// the other cells hold.
#[test]
fn headings_are_told_once_and_not_for_every_row() {
    let text = "strip,tail,kind,at,mas\nNorth,101,landing,2026-06-18T15:00Z,39.6 t\n\
                North,101,flight,2026-06-18T15:00Z,39.6 t\n";
    let mistakes = records_of_csv(Kind::Movement, text).expect_err("it has mistakes");
    assert_told(&mistakes, &[(1, 20, "column `mas`"), (3, 11, "`flight`")]);
    let text = "strip,kind,at\nNorth,landing,2026-06-18T15:00Z\nNorth,landing,now\n";
    let mistakes = records_of_csv(Kind::Movement, text).expect_err("it has mistakes");
    assert_told(
        &mistakes,
        &[(1, 1, "no column holds tail, mass, which a movement must state"), (3, 15, "`now`")],
    );
    let text = "strip,tail,kind,at,mass,mass_kg\nNorth,101,landing,2026-06-18T15:00Z,39 t,1\n";
    let mistakes = records_of_csv(Kind::Movement, text).expect_err("it has mistakes");
    let twice = "column `mass_kg` holds what column `mass` holds already";
    assert_told(&mistakes, &[(1, 25, twice)]);
    let text = "strip,at,rut,rut_statoin,rut_lane,water\n\
                North,2026-06-18T15:00Z,12 mm,300 m,left main,0 mm\n";
    let mistakes = records_of_csv(Kind::Inspection, text).expect_err("it has mistakes");
    assert_told(&mistakes, &[(1, 14, "rut_statoin")]);
}

/// What belongs to one depth is told with what belongs to another.
#[test]
fn every_contradiction_of_a_record_is_told() {
    let text = "strip,at,rut,rut_station,rut_lane,water,water_station\n\
                North,2026-06-18T15:00Z,12 mm,,left main,3 mm,\n";
    let mistakes = records_of_csv(Kind::Inspection, text).expect_err("it has mistakes");
    assert_told(&mistakes, &[(2, 31, "inspection, rut_station"), (2, 47, "water_station")]);
}

#[test]
fn each_value_of_another_book_that_cannot_be_used_is_told() {
    let text = "{\"closure\": [\n {\"id\": 1, \"strip\": \"North\", \"action\": \"shut\",\n  \
                \"from_time\": \"now\", \"reason\": \"wet\"},\n 7,\n {\"id\": 2, \"wheel\": 1}],\n\
                \"landing\": [],\n\"damage\": 1,\n\"movement\": [\n \
                {\"id\": 3, \"recorded_at\": \"once\", \"strip\": \"North\"}]}";
    let mistakes = history_of_json(text).expect_err("it has mistakes");
    assert_told(
        &mistakes,
        &[
            (1, 2, "each row of `closure` must be an object"),
            (2, 30, "`shut` is none of closed, reopened"),
            (3, 3, "`now`"),
            (5, 12, "column `wheel`"),
            (6, 1, "`landing` is no kind of record; there is movement, inspection"),
            (7, 1, "`damage` must hold a list"),
            (9, 2, "movement, tail"),
            (9, 2, "movement, kind"),
            (9, 2, "movement, at"),
            (9, 2, "movement, mass"),
            (9, 12, "`once` is no day and time"),
        ],
    );
}

/// A value that is missing in the last row of a list is not looked for behind it.
#[test]
fn a_place_is_not_taken_from_what_stands_behind_a_row() {
    let text = "{\"closure\": [\n {\"id\": 1, \"action\": \"closed\", \"reason\": \"wet\",\n  \
                \"from_time\": \"2026-06-18T15:00Z\"}],\n\"damage\": [{\"strip\": \"North\", \
                \"tail\": \"1\", \"date\": \"2026-06-18\", \"zone\": \"flap\", \
                \"phase\": \"taxi\"}]}";
    let mistakes = history_of_json(text).expect_err("it has mistakes");
    assert_told(&mistakes, &[(2, 2, "closure, strip")]);
}

#[test]
fn each_feature_of_a_map_that_cannot_be_used_is_told() {
    let text = "{\"type\": \"FeatureCollection\", \"features\": [\n\
                {\"properties\": {\"kind\": \"pond\"}},\n null,\n\
                {\"properties\": {\"kind\": \"damage\", \"tail\": [1], \"date\": \"now\"},\n \
                \"geometry\": {\"type\": \"Point\", \"coordinates\": [0.64, 61.0]}},\n\
                {\"properties\": {}}]}";
    let off = |latitude: f64, _: f64| (latitude < 61.0).then_some((0.0, 0.0));
    let off: &OffGlobe<'_> = &off;
    let mistakes = records_of_geojson(text, Some(off)).expect_err("it has mistakes");
    assert_told(
        &mistakes,
        &[
            (1, 31, "each feature must be an object"),
            (2, 17, "`pond` is no kind of feature"),
            (4, 35, "`tail` must be a text or a number"),
            (4, 48, "`now` is no date"),
            (5, 2, "61, 0.64 does not lie on the strip"),
            (6, 1, "a feature states no `kind`"),
        ],
    );
}

/// What superseded what, what lies ahead, and pictures whose bytes are not there.
#[test]
fn what_does_not_fit_together_is_told_with_all_places_and_nothing_is_recorded() {
    let row = |id: u32, at: &str, more: &str| {
        format!(
            "{{\"id\": {id}, \"strip\": \"N\", \"tail\": \"1\", \"kind\": \"landing\", \"at\": \
             \"{at}\", \"mass_kg\": 1000{more}}}"
        )
    };
    let now = "2026-06-01T15:00Z";
    let over = |id: u32| format!(", \"supersedes\": {id}, \"why\": \"wrong\"");
    let text = format!(
        "{{\"movement\": [\n{},\n{},\n{},\n{}],\n\"withdrawal\": [\n{{\"id\": 5, \"supersedes\": 3, \
         \"why\": \"never\"}},\n{{\"id\": 6, \"supersedes\": 5}}],\n\"picture\": [\n{{\"id\": 7, \
         \"strip\": \"N\", \"of_entry\": 1, \"shown\": \"a rut\", \"format\": \"png\", \
         \"width_px\": 1, \"height_px\": 1, \"bytes\": 1, \"sha256\": \"{}\"}}]}}",
        row(1, now, ""),
        row(2, "2999-06-01T15:00Z", ""),
        row(3, now, &over(1)),
        row(4, now, &over(1)),
        "0".repeat(64)
    );
    let taken = history_of_json(&text).expect("each fits by itself");
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = Book::create(&folder.path().join("north.book")).expect("a new record");
    let Err(ImportError::File(mistakes)) = book.take_over(taken, &[], &audit()) else {
        panic!("taken over")
    };
    assert_told(
        &mistakes,
        &[
            (3, 1, "2999"),
            (5, 1, "superseded by line 4, column 1 already"),
            (8, 1, "and why, must be said"),
            (8, 1, "(line 7, column 1) is a withdrawal, and that is final"),
            (10, 1, "the picture is of a movement"),
        ],
    );
    assert!(book.verify().expect("it is whole").is_empty());
}

#[test]
fn only_so_many_are_told_one_by_one_and_the_others_counted() {
    let rows = "North,101,flight,2026-06-18T15:00Z,1 t,\n".repeat(MOST_TOLD + 7);
    let text = format!("{HEAD}{rows}");
    let mistakes = taken_of(&text, Some(Kind::Movement), None).expect_err("it has mistakes");
    assert_eq!((mistakes.told().len(), mistakes.more()), (MOST_TOLD, 7));
    assert_eq!(mistakes.count(), MOST_TOLD + 7);
    assert!(mistakes.to_string().ends_with("\nand 7 more"), "{mistakes}");
}

#[test]
fn bytes_that_are_no_text_are_told_by_their_place() {
    let bytes = [HEAD.as_bytes(), "Né".as_bytes(), b"\xe9,101"].concat();
    let mistakes = text_of(bytes).expect_err("it is no text");
    assert_told(&mistakes, &[(2, 3, "the byte 0xe9 is no text in UTF-8; save the file")]);
    assert_eq!(text_of(HEAD.as_bytes().to_vec()).expect("a text"), HEAD);
}

/// A long table is read in a time that grows as it does: places are counted on, not
/// each from the beginning.
#[test]
fn a_hundred_thousand_rows_are_read_at_once() {
    let begun = std::time::Instant::now();
    let text = format!("{HEAD}{}", ROW.repeat(100_000));
    let taken = taken_of(&text, Some(Kind::Movement), None).expect("it fits");
    assert_eq!(taken.last().map(|one| one.at.line), Some(100_001));
    assert!(begun.elapsed().as_secs() < 60, "{:?}", begun.elapsed());
}

fn fields() -> impl Strategy<Value = String> {
    "(strip|tail|kind|at|mass|mass_kg|recorded_at|superseded_by|é|)"
}

fn cell() -> impl Strategy<Value = String> {
    "(North|landing|2026-06-18T15:00Z|39 t|\"a\nb\"|'=1|é|1e400|\"|)"
}

proptest! {
    /// Whatever stands in a table, each place that is told lies in it.
    #[test]
    fn prop_mistakes_of_a_table_lie_in_it(
        head in prop::collection::vec(fields(), 0..6),
        rows in prop::collection::vec(prop::collection::vec(cell(), 0..6), 0..6),
    ) {
        let rows: Vec<String> = rows.iter().map(|row| row.join(",")).collect();
        let text = format!("{}\n{}\n", head.join(","), rows.join("\n"));
        for kind in Kind::ALL {
            if let Err(mistakes) = records_of_csv(*kind, &text) {
                prop_assert!(mistakes.count() > 0 && mistakes.told().len() <= MOST_TOLD);
                for (line, column, _) in told(&mistakes) {
                    let letters = text.split('\n').nth(usize::try_from(line - 1).unwrap_or(9999));
                    let letters = letters.map(|line| line.chars().count() as u64);
                    prop_assert!(letters.is_some_and(|most| column <= most + 1), "{}", mistakes);
                }
            }
        }
    }

    /// Whatever bytes a file holds, they are a text or refused.
    #[test]
    fn prop_no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..80)) {
        if let Ok(text) = text_of(bytes) {
            let _ = taken_of(&text, None, None);
        }
    }

    /// Whatever an export may have become, it is taken or refused.
    #[test]
    fn prop_no_export_panics(
        word in "(movement|picture|withdrawal|closure|landing)",
        name in "(id|supersedes|of_entry|at|mass_kg|why|recorded_at|é)",
        value in prop::sample::select(vec![
            "null", "-1", "1", "1e400", "\"\"", "\"now\"", "[1]", "{\"id\": 1}",
            "9223372036854775807",
        ]),
        more in prop::sample::select(vec![
            "", ", 7", ", {}", ", {\"id\": -9223372036854775808, \"supersedes\": 1}",
        ]),
    ) {
        let text = format!("{{\"{word}\": [{{\"{name}\": {value}}}{more}]}}");
        if let Ok(taken) = history_of_json(&text) {
            let folder = tempfile::tempdir().expect("a folder");
            let book = Book::create(&folder.path().join("north.book"));
            let _ = book.expect("a new record").take_over(taken, &[], &audit());
        }
    }
}
