//! Largest masses against temperature, a curve for each wind, over tiles whose
//! hatch and code name what limits. Dashes, hatches and words carry the meaning.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::labels::fitted;
use super::palette::{ALERT, GREY, INK, PALE, PAPER};
use super::patterns::{Hatch, LIMITS, definitions};
use super::scale::Scale;
use crate::measure::{quantity_text, whole};
use crate::sheet::MassesReport;
use hardpan_assess::{CAUTION, MassCell, MassPanel};
use hardpan_model::Verdict;
use hardpan_quantity::{Quantity as _, UnitSystem};

const WIDTH: f64 = 200.0;
const LEFT: f64 = 26.0;
const RIGHT: f64 = 26.0;
const HEIGHT: f64 = 62.0;
const TILE: f64 = 5.4;
/// Letters of the caution on a line.
const CAUTION_LETTERS: usize = 105;
/// Dashes of the curves, by wind.
const DASHES: [&str; 5] = ["", "2.6 1.2", "1 0.9", "4 1 1 1", "0.5 1.2"];

/// Largest masses by temperature and wind with what limits them, about 200 mm
/// wide, one panel below another.
///
/// A self-contained SVG document.
#[must_use]
pub fn masses_figure(report: &MassesReport) -> String {
    let mut canvas = Canvas::new(WIDTH);
    canvas.raw(&definitions("limit", &LIMITS));
    canvas.text((LEFT, 5.5), &report.title(), Type::new(3.6, Anchor::Start).strong());
    let how = Type::new(2.8, Anchor::Start).coloured(GREY);
    canvas.text((LEFT, 9.8), &format!("Planning only. {}", report.subtitle()), how);
    let codes = report.codes();
    let mut y = 18.0;
    for panel in &report.sheet.panels {
        let view = View::new(report, panel, y);
        curves(&mut canvas, &view);
        y = tiles(&mut canvas, &view, &codes);
    }
    y = legend(&mut canvas, &codes, y);
    for line in textwrap::wrap(CAUTION, CAUTION_LETTERS) {
        canvas.text((LEFT, y), &line, how);
        y += 3.8;
    }
    canvas.finish(y + 1.0, &report.title(), &describe(report))
}

struct View<'a> {
    report: &'a MassesReport,
    panel: &'a MassPanel,
    top: f64,
    across: Scale,
    up: Scale,
    /// Width of a tile.
    width: f64,
}

impl<'a> View<'a> {
    fn new(report: &'a MassesReport, panel: &'a MassPanel, y: f64) -> Self {
        let temperatures = report.sheet.temperatures.iter().map(|one| one.si());
        let coldest = temperatures.clone().fold(f64::MAX, f64::min);
        let warmest = temperatures.clone().fold(f64::MIN, f64::max);
        let count = temperatures.len().max(1) as f64;
        let width = (WIDTH - LEFT - RIGHT) / count;
        let cells = panel.rows.iter().flatten();
        let masses = cells.filter_map(|cell| cell.mass).chain(panel.planned).map(|mass| mass.si());
        let (least, most) = (masses.clone().fold(f64::MAX, f64::min), masses.fold(0.0, f64::max));
        let room = (0.12 * (most - least)).max(500.0);
        let top = y + 6.0;
        Self {
            report,
            panel,
            top,
            across: Scale::new(
                (coldest, warmest),
                (LEFT + width / 2.0, WIDTH - RIGHT - width / 2.0),
            ),
            up: Scale::new((least - room, most + room), (top + HEIGHT, top)),
            width,
        }
    }

    /// Size of the shown unit of mass, kg.
    fn unit(&self) -> f64 {
        match self.report.units {
            UnitSystem::Metric => 1.0,
            UnitSystem::Imperial => 0.453_592_37,
        }
    }
}

fn curves(canvas: &mut Canvas, view: &View<'_>) {
    let (left, right) = (LEFT, WIDTH - RIGHT);
    let title = view.report.panel_title(&MassPanel { planned: None, ..view.panel.clone() });
    let how = Type::new(2.9, Anchor::Start).strong();
    canvas.text((left, view.top - 2.4), &fitted(&title, 2.9, true, right - left + RIGHT), how);
    for (shown, mass) in view.up.ticks(view.unit(), 6) {
        let y = view.up.at(mass);
        canvas.line((left, y), (right, y), Pen::new(PALE, 0.12));
        let how = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((left - 1.5, y + 0.9), &whole(shown), how);
    }
    if let Some(planned) = view.panel.planned {
        let y = view.up.at(planned.si());
        canvas.line((left, y), (right, y), Pen::new(GREY, 0.3).dashed("0.8 0.8"));
        canvas.text((left + 1.0, y - 0.8), "planned", Type::new(2.6, Anchor::Start).coloured(GREY));
    }
    let mut taken: Vec<f64> = Vec::new();
    for (index, wind) in view.report.winds().iter().enumerate() {
        let column = view.panel.rows.iter().map(|row| row.get(index).and_then(|cell| cell.mass));
        let places = view.report.sheet.temperatures.iter().zip(column);
        let dash = DASHES.get(index % DASHES.len()).copied().unwrap_or("");
        let mut run: Vec<(f64, f64)> = Vec::new();
        for (temperature, mass) in places {
            match mass {
                Some(mass) => run.push((view.across.at(temperature.si()), view.up.at(mass.si()))),
                None => canvas.path(&std::mem::take(&mut run), Pen::new(INK, 0.5).dashed(dash), ""),
            }
            if let Some((x, y)) = run.last() {
                canvas.circle((*x, *y), 0.6, INK, None);
            }
        }
        canvas.path(&run, Pen::new(INK, 0.5).dashed(dash), "");
        if let Some((x, y)) = run.last() {
            let free = |y: f64| taken.iter().all(|other| (y - other).abs() >= 3.2);
            let steps = (0..40).flat_map(|step| [f64::from(step), -f64::from(step)]);
            let place = steps.map(|step| y + 0.8 * step).find(|y| free(*y)).unwrap_or(*y);
            taken.push(place);
            let at = (x + view.width / 2.0 + 1.5, place + 0.9);
            canvas.line((x + 0.9, *y), (at.0 - 0.6, place), Pen::new(PALE, 0.2));
            canvas.text(at, wind, Type::new(2.7, Anchor::Start).strong());
        }
    }
}

/// What limits, a row of tiles for each wind; returns the place below.
fn tiles(canvas: &mut Canvas, view: &View<'_>, codes: &[(&'static str, String)]) -> f64 {
    let mut y = view.top + HEIGHT + 1.5;
    for (index, wind) in view.report.winds().iter().enumerate() {
        let how = Type::new(2.7, Anchor::End).strong();
        canvas.text((LEFT - 1.5, y + TILE / 2.0 + 0.9), wind, how);
        for (temperature, row) in view.report.sheet.temperatures.iter().zip(&view.panel.rows) {
            let Some(cell) = row.get(index) else { continue };
            let x = view.across.at(temperature.si()) - view.width / 2.0;
            tile(canvas, (x, y), view.width, cell, codes);
        }
        y += TILE;
    }
    for (temperature, words) in
        view.report.sheet.temperatures.iter().zip(view.report.temperatures())
    {
        let x = view.across.at(temperature.si());
        canvas.text((x, y + 4.0), &words, Type::new(2.7, Anchor::Middle));
    }
    y + 12.0
}

fn tile(
    canvas: &mut Canvas,
    (x, y): (f64, f64),
    width: f64,
    cell: &MassCell,
    codes: &[(&'static str, String)],
) {
    let code = cell.by.as_ref().map_or("", |(code, _)| *code);
    let fill = hatch_of(code, codes).map_or(PAPER.to_owned(), |hatch| hatch.fill("limit"));
    canvas.rectangle((x, y), (width, TILE), &fill, Some(Pen::new(GREY, 0.15)));
    let (words, colour) = match (cell.mass, cell.verdict) {
        (Some(_), _) => (code.to_owned(), INK),
        (None, Verdict::Unproven) => (format!("? {code}"), ALERT),
        (None, _) => (format!("✗ {code}"), ALERT),
    };
    let middle = (x + width / 2.0, y + TILE / 2.0);
    let plate = (2.0 + 1.75 * words.chars().count() as f64).min(width);
    canvas.rectangle((middle.0 - plate / 2.0, y + 0.9), (plate, TILE - 1.8), PAPER, None);
    let how = Type::new(2.5, Anchor::Middle).strong().coloured(colour);
    canvas.text((middle.0, middle.1 + 0.9), &words, how);
}

/// The hatch of a code, by its place among the codes of the sheet; none when
/// there are more codes than hatches.
fn hatch_of(code: &str, codes: &[(&'static str, String)]) -> Option<&'static Hatch> {
    let mut distinct: Vec<&str> = codes.iter().map(|(code, _)| *code).collect();
    distinct.dedup();
    let place = distinct.iter().position(|one| *one == code)?;
    LIMITS.get(place)
}

fn legend(canvas: &mut Canvas, codes: &[(&'static str, String)], mut y: f64) -> f64 {
    let heading = "What limits (✗ none holds, ? unproven)";
    canvas.text((LEFT, y), heading, Type::new(2.8, Anchor::Start).strong());
    y += 2.4;
    for (code, title) in codes {
        let fill = hatch_of(code, codes).map_or(PAPER.to_owned(), |hatch| hatch.fill("limit"));
        canvas.rectangle((LEFT, y), (8.0, 3.6), &fill, Some(Pen::new(GREY, 0.15)));
        canvas.text((LEFT + 10.0, y + 2.8), code, Type::new(2.7, Anchor::Start).strong());
        let words = fitted(title, 2.7, false, WIDTH - RIGHT - LEFT - 20.0);
        canvas.text((LEFT + 19.0, y + 2.8), &words, Type::new(2.7, Anchor::Start));
        y += 4.6;
    }
    y + 5.0
}

fn describe(report: &MassesReport) -> String {
    let panel = |panel: &MassPanel| {
        let cells = panel.rows.iter().flatten();
        let masses = cells.filter_map(|cell| cell.mass);
        let least = masses.clone().reduce(hardpan_quantity::Mass::min);
        let most = masses.reduce(hardpan_quantity::Mass::max);
        let range = match (least, most) {
            (Some(least), Some(most)) => format!(
                "from {} to {}",
                quantity_text(least, report.units),
                quantity_text(most, report.units)
            ),
            _ => "none".to_owned(),
        };
        format!("{}: {range}.", report.panel_title(panel))
    };
    report.sheet.panels.iter().map(panel).collect::<Vec<String>>().join(" ")
}
