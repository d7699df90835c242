//! Where flights are assessed: one blocking thread each, few at a time, and
//! each set of inputs once.

use crate::query::Query;
use crate::shelf::{Opened, Shelf};
use crate::trouble::Trouble;
use hardpan_assess::{Assessment, assess};
use hardpan_model::Flight;
use hardpan_report::{Produced, Report};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::{OnceCell, Semaphore, SemaphorePermit};

/// Assessments kept for the next reader.
const KEPT: usize = 48;
/// Assessments at the same time.
const AT_ONCE: usize = 2;

/// A flight with its assessment.
#[derive(Debug)]
pub(crate) struct Judged {
    pub(crate) flight: Flight,
    before: Option<Flight>,
    pub(crate) assessment: Assessment,
    pub(crate) produced: Produced,
    /// Warnings in the files.
    pub(crate) warnings: String,
    /// How long the assessment took when it was made.
    pub(crate) took: Duration,
}

impl Judged {
    /// The flight as the files have it.
    pub(crate) fn planned(&self) -> &Flight {
        self.before.as_ref().unwrap_or(&self.flight)
    }

    /// The report in the reader's units.
    pub(crate) fn report(&self, query: &Query) -> Report {
        Report::new(&self.assessment, query.units, self.produced.clone())
    }
}

type Place = Arc<OnceCell<Arc<Judged>>>;

/// Where flights are assessed.
pub(crate) struct Desk {
    shelf: Arc<dyn Shelf>,
    kept: Mutex<VecDeque<(String, Place)>>,
    slots: Semaphore,
}

impl Desk {
    pub(crate) fn new(shelf: Arc<dyn Shelf>) -> Self {
        Self { shelf, kept: Mutex::new(VecDeque::new()), slots: Semaphore::new(AT_ONCE) }
    }

    /// The assessment of a flight file with the changes of a query. The files
    /// are read afresh each time; what they hold decides whether it is assessed
    /// afresh.
    pub(crate) async fn judge(&self, file: &str, query: &Query) -> Result<Arc<Judged>, Trouble> {
        let (shelf, file, changes) =
            (Arc::clone(&self.shelf), file.to_owned(), query.changes.clone());
        let opened = blocking(move || shelf.flight(&file, &changes)).await?;
        let opened = opened.map_err(Trouble::Refused)?;
        let place = self.place(&opened.identifier);
        let judged = place.get_or_try_init(|| self.assess(opened)).await?;
        Ok(Arc::clone(judged))
    }

    /// Leave to assess; at most a few at a time have it.
    pub(crate) async fn slot(&self) -> Option<SemaphorePermit<'_>> {
        self.slots.acquire().await.ok()
    }

    fn place(&self, identifier: &str) -> Place {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let known = kept.iter().position(|(key, _)| key == identifier);
        let place = known.and_then(|at| kept.remove(at)).map(|(_, place)| place);
        let place = place.unwrap_or_default();
        kept.push_front((identifier.to_owned(), Arc::clone(&place)));
        kept.truncate(KEPT);
        place
    }

    async fn assess(&self, opened: Opened<Flight>) -> Result<Arc<Judged>, Trouble> {
        let slot = self.slot().await;
        let shelf = Arc::clone(&self.shelf);
        let judged = blocking(move || {
            let begun = Instant::now();
            let assessment = assess(&opened.value);
            Arc::new(Judged {
                produced: shelf.produced(&opened.identifier),
                flight: opened.value,
                before: opened.before,
                assessment,
                warnings: opened.warnings,
                took: begun.elapsed(),
            })
        })
        .await;
        drop(slot);
        judged
    }
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
