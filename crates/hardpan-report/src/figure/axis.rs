//! The station axis, and the value axis of one band.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::frame::{Ruler, Size};
use super::palette::{FAINT, GREY, INK, PALE};
use super::scale::Scale;
use crate::measure::{minus, station_unit, whole};

/// The station axis under all bands; returns the place below it.
pub(super) fn stations(canvas: &mut Canvas, frame: &Ruler, y: f64) -> f64 {
    let (left, right) = frame.ends();
    let (unit, size) = station_unit(frame.units);
    let type_size = frame.type_size();
    canvas.line((left, y), (right, y), Pen::new(INK, 0.3));
    let wanted = if frame.size == Size::Card { 10 } else { 12 };
    let last = frame.stations.values().1;
    let room = if frame.length_known { 7.0 } else { 34.0 };
    let ticks = if last > 1.0 { frame.stations.ticks(size, wanted) } else { Vec::new() };
    for (shown, station) in ticks {
        let x = frame.stations.at(station);
        canvas.line((x, y), (x, y + 1.0), Pen::new(INK, 0.3));
        let how = Type::new(type_size, Anchor::Middle);
        if right - x > room || (frame.length_known && right - x < 0.5) {
            canvas.text((x, y + 1.4 + type_size), &whole(shown), how);
        }
    }
    canvas.line((right, y), (right, y + 1.0), Pen::new(INK, 0.3));
    let (text, anchor) = if frame.length_known {
        (whole(last / size), Anchor::Middle)
    } else {
        ("length not known".to_owned(), Anchor::End)
    };
    canvas.text((right, y + 1.4 + type_size), &text, Type::new(type_size, anchor).strong());
    let name = Type::new(type_size, Anchor::End).coloured(GREY);
    canvas.text((left - 5.5, y + 1.4 + type_size), &format!("station, {unit}"), name);
    y + 2.4 + type_size
}

/// A band's frame: title, ticks at the left, faint lines across.
pub(super) fn values(canvas: &mut Canvas, frame: &Ruler, band: &Band<'_>) {
    let (left, right) = frame.ends();
    let (bottom, top) = band.scale.places();
    for (shown, value) in band.scale.ticks(band.unit, 4) {
        let y = band.scale.at(value);
        canvas.line((left, y), (right, y), Pen::new(PALE, 0.12));
        let how = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((left - 1.5, y + 0.9), &shown_number(shown), how);
    }
    canvas.line((left, bottom), (right, bottom), Pen::new(GREY, 0.2));
    canvas.line((left, bottom), (left, top), Pen::new(GREY, 0.2));
    title(canvas, frame, top, band.title);
}

/// A band without figures says so.
pub(super) fn nothing(canvas: &mut Canvas, frame: &Ruler, y: (f64, f64), title_text: &str) {
    let (left, right) = frame.ends();
    canvas.rectangle((left, y.0), (right - left, y.1 - y.0), FAINT, None);
    title(canvas, frame, y.0, title_text);
    let how = Type::new(3.0, Anchor::Middle).coloured(GREY);
    canvas.text(((left + right) / 2.0, (y.0 + y.1) / 2.0 + 1.0), "not known", how);
}

fn title(canvas: &mut Canvas, frame: &Ruler, top: f64, text: &str) {
    canvas.text((frame.ends().0, top - 1.4), text, Type::new(2.8, Anchor::Start).strong());
}

/// A clip to the inside of a band; returns its name.
pub(super) fn clip(canvas: &mut Canvas, frame: &Ruler, name: &str, y: (f64, f64)) -> String {
    let (left, right) = frame.ends();
    let id = format!("{}-{name}", frame.prefix());
    let (width, height) = (right - left, y.1 - y.0);
    canvas.raw(&format!(
        r#"<clipPath id="{id}"><rect x="{left}" y="{:.2}" width="{width}" height="{height:.2}"/></clipPath>"#,
        y.0
    ));
    id
}

/// What a band's value axis shows.
pub(super) struct Band<'a> {
    pub(super) title: &'a str,
    pub(super) scale: Scale,
    /// Size of the shown unit in the scale's own terms.
    pub(super) unit: f64,
}

fn shown_number(value: f64) -> String {
    if (value - value.round()).abs() < 1e-6 {
        whole(value)
    } else {
        minus(super::canvas::number(value).as_str())
    }
}
