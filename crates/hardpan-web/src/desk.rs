//! Where flights are assessed: one blocking thread each, few at a time, and
//! each set of inputs once.

use crate::query::Query;
use crate::shelf::{Opened, Shelf};
use crate::trouble::Trouble;
use hardpan_assess::{Answered, Assessment, Footing, Openings};
use hardpan_model::Flight;
use hardpan_quantity::UnitSystem;
use hardpan_report::{Produced, Report, json_text};
use std::collections::VecDeque;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError, Weak};
use std::time::{Duration, Instant};
use tokio::sync::{OnceCell, Semaphore, SemaphorePermit};

/// Assessments kept for the next reader.
const KEPT: usize = 48;
/// Assessments at the same time.
const AT_ONCE: usize = 2;
/// Flight files of which it is kept what their answers go on from.
const FOOTINGS: usize = 8;

/// A flight with its assessment.
#[derive(Debug)]
pub(crate) struct Judged {
    pub(crate) flight: Flight,
    before: Option<Flight>,
    pub(crate) assessment: Assessment,
    /// How much of it there is.
    pub(crate) wanted: Wanted,
    pub(crate) produced: Produced,
    /// Warnings in the files.
    pub(crate) warnings: String,
    /// How long the assessment took when it was made.
    pub(crate) took: Duration,
    /// The assessment as JSON in each system of units, once somebody asked.
    json: [OnceLock<String>; 2],
    /// The report in each system of units, while somebody reads it.
    reports: [Mutex<Weak<Report>>; 2],
    /// What its figures open to, once somebody opened one down to the files.
    openings: OnceLock<Openings>,
}

impl Judged {
    /// The flight as the files have it.
    pub(crate) fn planned(&self) -> &Flight {
        self.before.as_ref().unwrap_or(&self.flight)
    }

    /// The assessment as JSON, made once for each system of units: figures are in SI
    /// units in both, sentences in those of the reader.
    pub(crate) fn json(&self, query: &Query) -> &str {
        self.json[system(query)].get_or_init(|| json_text(&self.report(query)))
    }

    /// What its figures open to, worked out once.
    pub(crate) fn openings(&self) -> &Openings {
        let answered = || Answered::of(self.flight.clone());
        self.openings.get_or_init(|| answered().openings(&self.assessment))
    }

    /// The report in the reader's units: written once for all who read it at a time,
    /// as the parts of a sheet do.
    pub(crate) fn report(&self, query: &Query) -> Arc<Report> {
        let mut kept = open(&self.reports[system(query)]);
        kept.upgrade().unwrap_or_else(|| {
            let report = Report::new(&self.assessment, query.units, self.produced.clone());
            let report = Arc::new(report);
            *kept = Arc::downgrade(&report);
            report
        })
    }
}

/// The place of the reader's units among both.
fn system(query: &Query) -> usize {
    usize::from(query.units == UnitSystem::Imperial)
}

/// Where the assessment of some inputs is kept: its answer alone, which is there
/// sooner, and the whole.
#[derive(Default)]
struct Kept {
    answer: OnceCell<Arc<Judged>>,
    /// What the whole goes on from, until it is there.
    begun: Mutex<Option<(Answered, Duration)>>,
    whole: OnceCell<Arc<Judged>>,
}

type Place = Arc<Kept>;

/// How much of an assessment is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wanted {
    /// The answer, its findings and masses, without what would turn it or help.
    Answer,
    /// All of it.
    Whole,
}

/// A flight file with its changes, as it was read last.
struct Seen {
    file: String,
    changes: Vec<(String, String)>,
    /// What was read for it, and its mark then.
    files: Vec<String>,
    mark: String,
    place: Place,
}

/// Where flights are assessed.
pub(crate) struct Desk {
    shelf: Arc<dyn Shelf>,
    kept: Mutex<VecDeque<(String, Place)>>,
    seen: Mutex<VecDeque<Arc<Seen>>>,
    /// What the answers to a flight file go on from, the last ones first.
    footings: Arc<Mutex<VecDeque<(String, Footing)>>>,
    slots: Semaphore,
}

impl Desk {
    pub(crate) fn new(shelf: Arc<dyn Shelf>) -> Self {
        Self {
            shelf,
            kept: Mutex::default(),
            seen: Mutex::default(),
            footings: Arc::default(),
            slots: Semaphore::new(AT_ONCE),
        }
    }

    /// The assessment of a flight file with the changes of a query. The files are
    /// read afresh unless none of them was touched since; what they hold decides
    /// whether it is assessed afresh.
    pub(crate) async fn judge(
        &self,
        file: &str,
        query: &Query,
        wanted: Wanted,
    ) -> Result<Arc<Judged>, Trouble> {
        if let Some(judged) = self.untouched(file, query, wanted).await? {
            return Ok(judged);
        }
        let shelf = Arc::clone(&self.shelf);
        let (path, changes) = (file.to_owned(), query.changes.clone());
        let read = blocking(move || shelf.flight(&path, &changes));
        let opened = read.await?.map_err(Trouble::Refused)?;
        let place = self.place(&opened.identifier);
        if let Some(mark) = opened.mark.clone() {
            let changes = query.changes.clone();
            let files = opened.files.clone();
            let place = Arc::clone(&place);
            self.see(Seen { file: file.to_owned(), changes, files, mark, place });
        }
        let judged = match (wanted, place.whole.get()) {
            (Wanted::Answer, None) => {
                place.answer.get_or_try_init(|| self.assess(file, opened, &place, wanted)).await?
            }
            _ => {
                let whole = || self.assess(file, opened, &place, Wanted::Whole);
                place.whole.get_or_try_init(whole).await?
            }
        };
        Ok(Arc::clone(judged))
    }

    /// The assessment of files that nobody touched since they were read.
    async fn untouched(
        &self,
        file: &str,
        query: &Query,
        wanted: Wanted,
    ) -> Result<Option<Arc<Judged>>, Trouble> {
        let is_it = |one: &&Arc<Seen>| one.file == file && one.changes == query.changes;
        let seen = open(&self.seen).iter().find(is_it).map(Arc::clone);
        let Some(seen) = seen else { return Ok(None) };
        let answer = || seen.place.answer.get().filter(|_| wanted == Wanted::Answer);
        let judged = seen.place.whole.get().or_else(answer).map(Arc::clone);
        let Some(judged) = judged else { return Ok(None) };
        let shelf = Arc::clone(&self.shelf);
        let is_same =
            blocking(move || shelf.mark_of(&seen.files).is_some_and(|mark| mark == seen.mark));
        Ok(is_same.await?.then_some(judged))
    }

    fn see(&self, one: Seen) {
        let mut seen = open(&self.seen);
        seen.retain(|old| (&old.file, &old.changes) != (&one.file, &one.changes));
        seen.push_front(Arc::new(one));
        seen.truncate(KEPT);
    }

    /// Leave to assess; at most a few at a time have it.
    pub(crate) async fn slot(&self) -> Option<SemaphorePermit<'_>> {
        self.slots.acquire().await.ok()
    }

    fn place(&self, identifier: &str) -> Place {
        let mut kept = open(&self.kept);
        let known = kept.iter().position(|(key, _)| key == identifier);
        let place = known.and_then(|at| kept.remove(at)).map(|(_, place)| place);
        let place = place.unwrap_or_default();
        kept.push_front((identifier.to_owned(), Arc::clone(&place)));
        kept.truncate(KEPT);
        place
    }

    async fn assess(
        &self,
        file: &str,
        opened: Opened<Flight>,
        place: &Place,
        wanted: Wanted,
    ) -> Result<Arc<Judged>, Trouble> {
        let slot = self.slot().await;
        let (shelf, place) = (Arc::clone(&self.shelf), Arc::clone(place));
        let (file, footings) = (file.to_owned(), Arc::clone(&self.footings));
        // Dropped with the request when its browser hangs up, and at its end.
        let waiting = Waiting::default();
        let gone = Arc::clone(&waiting.0);
        let judged = blocking(move || {
            let begun = Instant::now();
            let known = open(&place.begun).take();
            let (answered, before) = known.unwrap_or_else(|| {
                (answer(&footings, &file, opened.value.clone()), Duration::ZERO)
            });
            let assessment = match wanted {
                Wanted::Answer => Some(answered.alone()),
                Wanted::Whole => answered.whole_unless(&|| gone.load(Ordering::Relaxed)),
            };
            let took = before + begun.elapsed();
            if wanted == Wanted::Answer || assessment.is_none() {
                *open(&place.begun) = Some((answered, took));
            }
            let assessment = assessment.ok_or_else(given_up)?;
            Ok(Arc::new(Judged {
                produced: shelf.produced(&opened.identifier),
                flight: opened.value,
                before: opened.before,
                assessment,
                wanted,
                warnings: opened.warnings,
                took,
                json: <[OnceLock<String>; 2]>::default(),
                reports: <[Mutex<Weak<Report>>; 2]>::default(),
                openings: OnceLock::new(),
            }))
        })
        .await;
        drop((slot, waiting));
        judged?
    }
}

/// Somebody waits for an answer; says so until it is dropped.
#[derive(Default)]
struct Waiting(Arc<AtomicBool>);

impl Drop for Waiting {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

fn given_up() -> Trouble {
    Trouble::Broken("Nobody waited for this answer any more.".to_owned())
}

/// The answer to a flight, from what the last answer to its file found where it can.
fn answer(footings: &Mutex<VecDeque<(String, Footing)>>, file: &str, flight: Flight) -> Answered {
    let before = open(footings).iter().find(|(of, _)| of == file).map(|(_, one)| one.clone());
    let answered = match before {
        Some(before) => Answered::after(flight, &before),
        None => Answered::of(flight),
    };
    let mut kept = open(footings);
    kept.retain(|(of, _)| of != file);
    kept.push_front((file.to_owned(), answered.footing()));
    kept.truncate(FOOTINGS);
    answered
}

fn open<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Run long work away from the threads that answer.
pub(crate) async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Trouble> {
    tokio::task::spawn_blocking(work).await.map_err(|_| {
        let said = "This answer broke off inside the program; the files are as they were.";
        Trouble::Broken(said.to_owned())
    })
}
