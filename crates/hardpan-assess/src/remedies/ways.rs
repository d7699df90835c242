//! The search: which changes turn the answer, the fewest of them, the cheapest,
//! and what repairs buy in mass.

mod trade;

use super::changes::{Change, Changed, Kind, changes, cost_of_load};
use super::cost::Cost;
use super::{failing, lighter_masses, mended, set_after};
use crate::assess::Core;
use crate::assessment::{Identity, MassAnswer};
use crate::figures::identity;
use crate::measure::Standing;
use crate::phrase::Phrase;
use hardpan_model::{Flight, Given, Step, Verdict, Weight};
use hardpan_quantity::{Mass, Quantity, Speed, kilograms};

/// Most changes of one list.
const MOST_CHANGES: usize = 3;
/// Changes that are combined, those that mend most first.
const MOST_COMBINED: usize = 9;
/// Most lists that are tried.
const MOST_TRIED: usize = 150;
/// A gain that is worth naming, kg.
const WORTH_KG: f64 = 50.0;

/// What would turn the answer to a flight, or raise its masses.
#[derive(Debug, Clone, PartialEq)]
pub struct WaysOut {
    /// Who, where, when.
    pub identity: Identity,
    /// Verdict as planned.
    pub verdict: Verdict,
    /// Codes of the checks that fail as planned.
    pub failing: Vec<&'static str>,
    /// Largest landing mass as planned.
    pub landing_mass: Option<MassAnswer>,
    /// Largest take-off mass as planned.
    pub take_off_mass: Option<MassAnswer>,
    /// Every single change, the most effective first.
    pub singles: Vec<WayOut>,
    /// The shortest list of changes that turns the answer; none where the answer
    /// holds as planned or nothing turns it. Where data are missing as planned, no
    /// change supplies them: it is then the shortest after which nothing fails.
    pub shortest: Option<WayOut>,
    /// The cheapest that turns it, of those whose cost is known; likewise.
    pub cheapest: Option<WayOut>,
    /// Mass against repair: no row is beaten by another in both. Without costs only
    /// gravel can be weighed against mass.
    pub trade: Vec<TradePoint>,
    /// Unit of money, as the user names it; empty where no cost is stated.
    pub unit: String,
    /// How many lists of changes were assessed.
    pub tried: usize,
    /// What the reader must know.
    pub notes: Vec<String>,
}

/// A list of changes and what an assessment with them says.
#[derive(Debug, Clone, PartialEq)]
pub struct WayOut {
    /// What to do.
    pub actions: Vec<Phrase>,
    /// Verdict of the whole after it.
    pub verdict_after: Verdict,
    /// Codes of the findings that it mends.
    pub mends: Vec<&'static str>,
    /// Codes of the findings that still fail.
    pub left: Vec<&'static str>,
    /// Largest landing mass after it.
    pub landing_mass: Option<Mass>,
    /// Largest take-off mass after it.
    pub take_off_mass: Option<Mass>,
    /// Decision speed after it, chosen afresh.
    pub decision_speed: Option<Speed>,
    /// Load left behind.
    pub load_left: Mass,
    /// Cost in the unit of money; none where a part of it is not stated.
    pub cost: Option<f64>,
    /// What is paid for it, one step each.
    pub costed: Vec<Step>,
}

/// What a repair buys in mass.
#[derive(Debug, Clone, PartialEq)]
pub struct TradePoint {
    /// The repairs; none for the strip as it is.
    pub repair: Option<Phrase>,
    /// Gravel laid, m³.
    pub cubic_metres: f64,
    /// Cost; none where it is not stated.
    pub cost: Option<f64>,
    /// What is paid for it, one step each.
    pub costed: Vec<Step>,
    /// Largest landing mass with it.
    pub landing_mass: Option<Mass>,
    /// Largest take-off mass with it.
    pub take_off_mass: Option<Mass>,
    /// What the movement that is limited most may weigh over the plan; negative
    /// where the plan is too heavy.
    pub spare: Mass,
}

/// A list of changes: which, and whether the masses are lowered to what then holds.
#[derive(Debug, Clone, PartialEq, Eq)]
struct List {
    changes: Vec<usize>,
    lighter: bool,
}

impl List {
    fn len(&self) -> usize {
        self.changes.len() + usize::from(self.lighter)
    }
}

/// How a list of changes is assessed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum How {
    /// To sift: never worse than it is found in the end.
    Sifting,
    /// On the strip as it was measured once, where no change touches its shape.
    AsItStands,
    /// With nothing kept from before.
    Afresh,
}

struct Search<'a> {
    flight: &'a Flight,
    standing: Standing,
    core: Core,
    changes: Vec<Change>,
    tried: usize,
    done: &'a mut dyn FnMut(usize),
}

/// Look for what turns the answer to a flight; `done` is called with how many
/// lists of changes were assessed.
#[must_use]
pub fn ways_out(flight: &Flight, mut done: impl FnMut(usize)) -> WaysOut {
    let standing = Standing::of(flight);
    let core = Core::planned(flight, &standing);
    let changes = changes(flight, &core);
    let mut search = Search { flight, standing, core, changes, tried: 0, done: &mut done };
    let singles = search.singles();
    let lists = search.turning(&singles);
    let shortest = search.first_borne_out(&lists, |way| (way.actions.len() as f64, way.cost));
    let priced: Vec<(List, WayOut)> =
        lists.iter().filter(|(_, way)| way.cost.is_some()).cloned().collect();
    let is_priced = flight.options.costs.unit.is_some();
    let cheapest = if is_priced {
        search.first_borne_out(&priced, |way| (way.cost.unwrap_or(f64::INFINITY), None))
    } else {
        None
    };
    let trade = search.trade();
    let notes = search.notes(&shortest);
    let mut singles: Vec<WayOut> = singles.into_iter().map(|(_, way)| way).collect();
    singles.sort_by_key(|way| (way.verdict_after, std::cmp::Reverse(way.mends.len())));
    let unit = flight.options.costs.unit.as_ref();
    WaysOut {
        identity: identity(flight),
        verdict: search.core.verdict,
        failing: failing(&search.core),
        landing_mass: search.core.landing_mass.clone(),
        take_off_mass: search.core.take_off_mass.clone(),
        singles,
        shortest,
        cheapest,
        trade,
        unit: unit.map_or_else(String::new, |unit| unit.value.clone()),
        tried: search.tried,
        notes,
    }
}

/// Whether a safety check lacks data, which no change supplies.
fn lacks_data(core: &Core) -> bool {
    let mut findings = core.findings.iter();
    findings.any(|one| one.verdict == Verdict::Unproven && one.weight == Weight::Safety)
}

fn largest(answer: &Option<MassAnswer>) -> Option<Mass> {
    answer.as_ref().and_then(|answer| answer.largest)
}

impl Search<'_> {
    /// Whether an answer is as good as changes can make it: it can be acted on, or it
    /// lacks data as the plan does and nothing fails.
    fn is_turned(&self, verdict: Verdict) -> bool {
        let best = if lacks_data(&self.core) { Verdict::Unproven } else { Verdict::Conditional };
        verdict <= best
    }

    fn changed(&self, list: &[usize]) -> Changed {
        let made = list.iter().filter_map(|index| self.changes.get(*index));
        made.fold(Changed::of(self.flight), Changed::with)
    }

    fn assessed(&mut self, changed: &Changed, how: How) -> Core {
        self.tried += 1;
        (self.done)(self.tried);
        let Changed { flight, gravel, reshaped } = changed;
        match how {
            How::Sifting if !reshaped => self.core.sifted(flight, &self.standing, gravel),
            How::AsItStands if !reshaped => Core::tried(flight, &self.standing, gravel),
            _ => Core::tried(flight, &Standing::of(flight), gravel),
        }
    }

    /// The flight of a list; none where its masses need not be lowered although
    /// the list says so.
    fn flight_of(&mut self, list: &List, how: How) -> Option<(Changed, Mass, Option<Phrase>)> {
        let mut changed = self.changed(&list.changes);
        if !list.lighter {
            return Some((changed, kilograms(0.0), None));
        }
        let core = self.assessed(&changed, how);
        let (lighter, action, less) = lighter_masses(&changed.flight, &core)?;
        changed.flight = lighter;
        Some((changed, less, Some(action)))
    }

    /// A change in words, with what it comes to in an assessment with it.
    fn told(&self, index: usize, after: &Core) -> Phrase {
        let change = &self.changes[index];
        let Kind::Pressure(leg) = change.kind else { return change.action.clone() };
        let set = set_after(leg, after).map(|set| {
            let words = format!(
                "set the {} tyres as the ground asks for, {{}} at these masses",
                leg.word()
            );
            Phrase::new(words, [set.into()])
        });
        set.unwrap_or_else(|| change.action.clone())
    }

    fn way(&mut self, list: &List, how: How) -> Option<WayOut> {
        let (changed, load_left, lighter) = self.flight_of(list, how)?;
        let after = self.assessed(&changed, how);
        let told = list.changes.iter().map(|index| self.told(*index, &after));
        let actions: Vec<Phrase> = told.chain(lighter).collect();
        let costs = &self.flight.options.costs;
        let of_changes: Option<Vec<Cost>> =
            list.changes.iter().map(|index| self.changes[*index].cost.clone()).collect();
        let nothing = || Some(Cost::default());
        let of_load = if list.lighter { cost_of_load(costs, load_left) } else { nothing() };
        let both = of_changes.zip(of_load);
        let cost = both.map(|(changes, load)| Cost::sum(changes.into_iter().chain([load])));
        let run = after.measured.take_off.as_ref().and_then(|run| run.as_ref().ok());
        Some(WayOut {
            actions,
            verdict_after: after.verdict,
            mends: mended(&self.core, &after),
            left: failing(&after),
            landing_mass: largest(&after.landing_mass),
            take_off_mass: largest(&after.take_off_mass),
            decision_speed: run.and_then(|run| Some(run.decision.as_ref()?.speed)),
            load_left,
            cost: cost.as_ref().map(|cost| cost.amount),
            costed: cost.map_or_else(Vec::new, |cost| cost.steps),
        })
    }

    /// Each change by itself, where it helps in an assessment from the ground up.
    fn singles(&mut self) -> Vec<(usize, WayOut)> {
        let mut found: Vec<(usize, WayOut)> = Vec::new();
        for index in 0..self.changes.len() {
            let list = List { changes: vec![index], lighter: false };
            let helps = self.way(&list, How::Sifting).filter(|way| self.helps(way));
            let borne_out = helps.and_then(|_| self.way(&list, How::Afresh));
            found.extend(borne_out.filter(|way| self.helps(way)).map(|way| (index, way)));
        }
        found
    }

    fn gain(&self, way: &WayOut) -> f64 {
        let pairs = [
            (way.landing_mass, largest(&self.core.landing_mass)),
            (way.take_off_mass, largest(&self.core.take_off_mass)),
        ];
        let gains = pairs.into_iter().filter_map(|(after, before)| Some((after? - before?).si()));
        gains.fold(0.0, |sum, gain| sum + gain)
    }

    fn helps(&self, way: &WayOut) -> bool {
        way.verdict_after < self.core.verdict
            || !way.mends.is_empty()
            || (way.verdict_after == self.core.verdict && self.gain(way) >= WORTH_KG)
    }

    /// Every list tried that turns a fail into an answer as good as changes can make it,
    /// the shortest first.
    fn turning(&mut self, singles: &[(usize, WayOut)]) -> Vec<(List, WayOut)> {
        if self.core.verdict != Verdict::Fail {
            return Vec::new();
        }
        let mut found: Vec<(List, WayOut)> = singles
            .iter()
            .filter(|(_, way)| self.is_turned(way.verdict_after))
            .map(|(index, way)| (List { changes: vec![*index], lighter: false }, way.clone()))
            .collect();
        let mut useful: Vec<&(usize, WayOut)> = singles.iter().collect();
        useful.sort_by(|a, b| {
            let mends = b.1.mends.len().cmp(&a.1.mends.len());
            mends.then(self.gain(&b.1).total_cmp(&self.gain(&a.1)))
        });
        useful.truncate(MOST_COMBINED);
        let useful: Vec<usize> = useful.into_iter().map(|(index, _)| *index).collect();
        for length in 1..=MOST_CHANGES {
            for list in self.lists(&useful, length) {
                if self.tried >= MOST_TRIED {
                    break;
                }
                let way = self.way(&list, How::Sifting);
                if let Some(way) = way.filter(|way| self.is_turned(way.verdict_after)) {
                    found.push((list, way));
                }
            }
            let is_enough = found.len() >= 2 || (!found.is_empty() && length >= 2);
            if is_enough {
                break;
            }
        }
        found
    }

    /// Lists of a length that were not tried as single changes.
    fn lists(&self, useful: &[usize], length: usize) -> Vec<List> {
        let mut sets: Vec<Vec<usize>> = vec![Vec::new()];
        let mut lists = Vec::new();
        for size in 0..=length {
            let lighter = size + 1 == length;
            if lighter || (size == length && size > 1) {
                lists.extend(sets.iter().map(|set| List { changes: set.clone(), lighter }));
            }
            sets = sets.iter().flat_map(|set| self.with_one_more(set, useful)).collect();
        }
        lists
    }

    fn with_one_more(&self, set: &[usize], useful: &[usize]) -> Vec<Vec<usize>> {
        let fits = |next: &&usize| {
            set.iter().all(|one| {
                one < next && !self.changes[*one].kind.excludes(&self.changes[**next].kind)
            })
        };
        useful.iter().filter(fits).map(|next| [set, &[*next]].concat()).collect()
    }

    /// The first list by a key, and then by verdict and load left behind, as an
    /// assessment from the ground up finds it: never sooner than as it was sifted.
    fn first_borne_out(
        &mut self,
        lists: &[(List, WayOut)],
        key: impl Fn(&WayOut) -> (f64, Option<f64>),
    ) -> Option<WayOut> {
        let before = |a: &(List, WayOut), b: &(List, WayOut)| {
            let ((first, then), (other, next)) = (key(&a.1), key(&b.1));
            let by_cost = then.unwrap_or(f64::INFINITY).total_cmp(&next.unwrap_or(f64::INFINITY));
            first
                .total_cmp(&other)
                .then(a.1.load_left.si().total_cmp(&b.1.load_left.si()))
                .then(by_cost)
                .then(a.1.verdict_after.cmp(&b.1.verdict_after))
                .then(a.0.len().cmp(&b.0.len()))
        };
        let mut order: Vec<&(List, WayOut)> = lists.iter().collect();
        order.sort_by(|a, b| before(a, b));
        let mut best: Option<(List, WayOut)> = None;
        for sifted in order {
            if best.as_ref().is_some_and(|best| before(best, sifted).is_le()) {
                break;
            }
            let fresh = self.way(&sifted.0, How::Afresh);
            let Some(way) = fresh.filter(|way| self.is_turned(way.verdict_after)) else { continue };
            let found = (sifted.0.clone(), way);
            if best.as_ref().is_none_or(|best| before(&found, best).is_lt()) {
                best = Some(found);
            }
        }
        best.map(|(_, way)| way)
    }

    fn notes(&self, shortest: &Option<WayOut>) -> Vec<String> {
        let mut notes = Vec::new();
        let options = &self.flight.options;
        if options.costs.unit.is_none() {
            notes.push("no cost is stated (flight: options.costs), so none is compared".to_owned());
        }
        let unproven = lacks_data(&self.core);
        if unproven {
            notes.push(
                "checks lack data as well; no change mends that, and after any of them the flight \
                 is still unproven: supply what the assessment lists"
                    .to_owned(),
            );
        }
        if self.core.verdict == Verdict::Fail && shortest.is_none() {
            let turned = if unproven { "leaves nothing that fails" } else { "turns the answer" };
            notes.push(format!("no list of up to {MOST_CHANGES} changes {turned}"));
        }
        if self.changes.iter().any(|one| matches!(one.kind, Kind::Hour(_))) {
            notes.push(
                "an hour is tried by its forecast: assess it again with the report that is then \
                 made"
                    .to_owned(),
            );
        }
        if self.changes.iter().any(|one| one.kind.is_repair()) {
            notes.push(
                "a repair is tried as if it were done as it should be: survey, sound and inspect \
                 what was worked on before it is used"
                    .to_owned(),
            );
        }
        let take_off = self.flight.take_off.as_ref();
        let speed = match take_off.and_then(|plan| plan.decision_speed.as_ref()) {
            Some(_) => "the decision speed stated is kept unless a change names another",
            None => {
                "the decision speed is chosen afresh for every change that names none, within \
                 what control and the declared distances allow"
            }
        };
        notes.push(speed.to_owned());
        notes
    }
}

/// Keeps a plan's mass under another value.
pub(super) fn at_mass(given: &mut Option<Given<Mass>>, mass: Mass) {
    *given = given.take().map(|given| given.map(|_| mass));
}
