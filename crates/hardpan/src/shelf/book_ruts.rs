//! A flight whose strip has the ruts that a book tells of it, each with the entry that it
//! stands in.

use super::bring::naming;
use super::over::Over;
use super::{Read, sound};
use hardpan_files::{FileSource, Memory, glance, read_flight};
use hardpan_model::{Flight, Given, MeasuredRut, Origin};
use hardpan_web::{Refusal, RutsOfBook};
use std::path::Path;
use std::sync::Arc;

/// Name under which the ruts of a book stand beside a strip while they are read.
const BESIDE: &str = "ruts of the book.csv";
/// What passes, mass and pressure of a rut are, beside who recorded it.
const COUNTED: &str = "of the movements in the book since the place was made level";

/// Read a flight with the ruts of a book in place of those of its strip file.
pub(super) fn read(
    under: &dyn FileSource,
    flight: &str,
    ruts: &RutsOfBook,
) -> Result<(Flight, Read), Refusal> {
    let Some((over, beside)) = laid_over(under, flight, &ruts.text) else {
        // The files of the flight have mistakes, which stand in its own words.
        sound(read_flight(under, flight))?;
        return Err(told(format!("The strip of {flight} cannot take the ruts of {}.", ruts.book)));
    };
    let (mut flight, read) =
        sound(read_flight(&over, flight)).map_err(|why| of_the_book(why, &beside, ruts))?;
    if flight.strip.ruts.len() != ruts.rows.len() {
        let counts = (flight.strip.ruts.len(), ruts.rows.len());
        let said = format!("Of {} ruts of {} only {} can be read.", counts.1, ruts.book, counts.0);
        return Err(told(said));
    }
    for (rut, (entry, recorded)) in flight.strip.ruts.iter_mut().zip(&ruts.rows) {
        say_where(rut, &ruts.book, *entry, recorded);
    }
    Ok((flight, read))
}

fn told(text: String) -> Refusal {
    Refusal { text, places: Vec::new() }
}

/// The files of a flight with other ruts on its strip, and the name of their file; none
/// where it names no strip that can be read.
fn laid_over<'s>(
    under: &'s dyn FileSource,
    flight: &str,
    ruts: &str,
) -> Option<(Over<'s>, String)> {
    let named = glance(under, flight)?.names;
    let strip = named.into_iter().find(|(kind, _)| *kind == "strip")?.1;
    let text = String::from_utf8(under.read(&strip).ok()?).ok()?;
    let naming = naming(&text, "ruts", BESIDE)?;
    let folder = Path::new(&strip).parent().unwrap_or(Path::new(""));
    let file = folder.join(BESIDE).to_string_lossy().into_owned();
    Some((Over { under, over: Memory::default().with(&strip, naming).with(&file, ruts) }, file))
}

/// Name the book in a mistake of its ruts: no file of the user has them.
fn of_the_book(mut why: Refusal, beside: &str, ruts: &RutsOfBook) -> Refusal {
    let named = format!("{} (as `hardpan book FILE ruts` prints it)", ruts.book);
    why.text = why.text.replace(beside, &named);
    for place in why.places.iter_mut().filter(|place| place.file == beside) {
        let row = (place.line as usize).checked_sub(2);
        let row = row.and_then(|row| ruts.rows.get(row));
        place.file.clone_from(&ruts.book);
        if let Some((entry, recorded)) = row {
            why.text.push_str(&format!("line {} is entry {entry}, {recorded}\n", place.line));
            place.message = format!("entry {entry}, {recorded}: {}", place.message);
        }
        (place.line, place.column) = (0, 0);
    }
    why
}

/// Where a rut of a book stands, and who recorded it and when.
fn say_where(rut: &mut MeasuredRut, book: &str, entry: i64, recorded: &str) {
    let book: Arc<str> = book.into();
    let source: Arc<str> = recorded.into();
    let counted: Arc<str> = format!("{COUNTED}; {recorded}").into();
    let origin = |value: &str| Origin {
        file: Arc::clone(&book),
        line: 0,
        column: 0,
        key: format!("entry {entry}, {value}").into(),
    };
    stand(&mut rut.station, origin("rut_station"), &source);
    stand(&mut rut.depth, origin("rut"), &source);
    if let Some(date) = &mut rut.date {
        stand(date, origin("at"), &source);
    }
    stand(&mut rut.passes, origin("passes"), &counted);
    stand(&mut rut.mass, origin("mean mass"), &counted);
    stand(&mut rut.pressure, origin("mean pressure"), &counted);
}

fn stand<T>(given: &mut Given<T>, origin: Origin, source: &Arc<str>) {
    given.origin = origin;
    given.source = Some(Arc::clone(source));
}
