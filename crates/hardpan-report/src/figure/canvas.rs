//! Writing SVG: millimetres on paper, text escaped, nothing that is not finite.

use super::palette::{FONTS, INK};

/// A drawing that grows.
pub(super) struct Canvas {
    width: f64,
    height: f64,
    body: String,
}

/// Where a text is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// How a text is set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Type {
    pub(super) size: f64,
    pub(super) strong: bool,
    pub(super) colour: &'static str,
    pub(super) anchor: Anchor,
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pen {
    pub(super) colour: &'static str,
    pub(super) width: f64,
    pub(super) dash: &'static str,
}

impl Type {
    pub(super) const fn new(size: f64, anchor: Anchor) -> Self {
        Self { size, strong: false, colour: INK, anchor }
    }

    pub(super) const fn strong(self) -> Self {
        Self { strong: true, ..self }
    }

    pub(super) const fn coloured(self, colour: &'static str) -> Self {
        Self { colour, ..self }
    }
}

impl Pen {
    pub(super) const fn new(colour: &'static str, width: f64) -> Self {
        Self { colour, width, dash: "" }
    }

    pub(super) const fn dashed(self, dash: &'static str) -> Self {
        Self { dash, ..self }
    }

    fn attributes(self) -> String {
        let dash = match self.dash {
            "" => String::new(),
            dash => format!(" stroke-dasharray=\"{dash}\""),
        };
        format!("stroke=\"{}\" stroke-width=\"{}\"{dash}", self.colour, number(self.width))
    }
}

impl Canvas {
    pub(super) fn new(width: f64) -> Self {
        Self { width, height: 0.0, body: String::new() }
    }

    pub(super) fn width(&self) -> f64 {
        self.width
    }

    pub(super) fn raw(&mut self, element: &str) {
        self.body.push_str(element);
        self.body.push('\n');
    }

    /// A straight line; left out when a coordinate is not finite.
    pub(super) fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: Pen) {
        if let Some([x1, y1, x2, y2]) = finite([from.0, from.1, to.0, to.1]) {
            let pen = pen.attributes();
            let line = format!(r#"<line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}" {pen}/>"#);
            self.raw(&line);
        }
    }

    /// A line through points; points that are not finite are left out.
    pub(super) fn path(&mut self, points: &[(f64, f64)], pen: Pen, clip: &str) {
        let points = point_list(points);
        if points.contains(' ') {
            let pen = pen.attributes();
            let clip = clip_attribute(clip);
            self.raw(&format!(
                r#"<polyline points="{points}" fill="none" stroke-linejoin="round" {pen}{clip}/>"#
            ));
        }
    }

    /// A filled outline.
    pub(super) fn area(&mut self, points: &[(f64, f64)], fill: &str, clip: &str) {
        let points = point_list(points);
        if points.contains(' ') {
            let clip = clip_attribute(clip);
            self.raw(&format!(r#"<polygon points="{points}" fill="{fill}"{clip}/>"#));
        }
    }

    /// A rectangle with a fill and, if wanted, an edge.
    pub(super) fn rectangle(
        &mut self,
        corner: (f64, f64),
        size: (f64, f64),
        fill: &str,
        edge: Option<Pen>,
    ) {
        if let Some([x, y, width, height]) = finite([corner.0, corner.1, size.0, size.1]) {
            let edge = edge.map_or(String::new(), |pen| format!(" {}", pen.attributes()));
            self.raw(&format!(
                r#"<rect x="{x}" y="{y}" width="{width}" height="{height}" fill="{fill}"{edge}/>"#
            ));
        }
    }

    /// A filled circle with, if wanted, an edge.
    pub(super) fn circle(&mut self, at: (f64, f64), radius: f64, fill: &str, edge: Option<Pen>) {
        if let Some([x, y, radius]) = finite([at.0, at.1, radius]) {
            let edge = edge.map_or(String::new(), |pen| format!(" {}", pen.attributes()));
            self.raw(&format!(r#"<circle cx="{x}" cy="{y}" r="{radius}" fill="{fill}"{edge}/>"#));
        }
    }

    /// A text on its base line.
    pub(super) fn text(&mut self, at: (f64, f64), text: &str, how: Type) {
        let Some([x, y]) = finite([at.0, at.1]) else { return };
        let anchor = match how.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let weight = if how.strong { " font-weight=\"600\"" } else { "" };
        let (size, colour, text) = (number(how.size), how.colour, escaped(text));
        self.raw(&format!(
            r#"<text x="{x}" y="{y}" font-size="{size}" text-anchor="{anchor}" fill="{colour}"{weight}>{text}</text>"#
        ));
    }

    /// The whole picture of the given height, with its title and description
    /// for those who cannot see it.
    pub(super) fn finish(mut self, height: f64, title: &str, description: &str) -> String {
        self.height = height;
        let (width, height) = (number(self.width), number(self.height));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
             viewBox=\"0 0 {width} {height}\" font-family=\"{FONTS}\" role=\"img\">\n\
             <title>{}</title>\n<desc>{}</desc>\n{}</svg>\n",
            escaped(title),
            escaped(description),
            self.body
        )
    }
}

fn clip_attribute(clip: &str) -> String {
    if clip.is_empty() { String::new() } else { format!(" clip-path=\"url(#{clip})\"") }
}

fn point_list(points: &[(f64, f64)]) -> String {
    let points = points.iter().filter_map(|point| finite([point.0, point.1]));
    points.map(|[x, y]| format!("{x},{y}")).collect::<Vec<String>>().join(" ")
}

fn finite<const N: usize>(values: [f64; N]) -> Option<[String; N]> {
    values.iter().all(|value| value.is_finite()).then(|| values.map(number))
}

/// Hundredths of a millimetre, without trailing zeros.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push('□'),
            c => out.push(c),
        }
    }
    out
}
