//! The few colours, and the patterns that say the same without them.

use hardpan_assess::SketchMarkKind;

pub(super) const INK: &str = "#17212b";
pub(super) const GREY: &str = "#56616c";
pub(super) const PALE: &str = "#c3cad1";
pub(super) const FAINT: &str = "#eef1f3";
pub(super) const ALERT: &str = "#9c2f0b";
pub(super) const PAPER: &str = "#ffffff";
pub(super) const FONTS: &str = "Inter, Helvetica, Arial, sans-serif";

/// All kinds, in the order in which they are laid over one another.
pub(super) const KINDS: [SketchMarkKind; 6] = [
    SketchMarkKind::Unknown,
    SketchMarkKind::Loose,
    SketchMarkKind::Water,
    SketchMarkKind::Rut,
    SketchMarkKind::Soft,
    SketchMarkKind::Bump,
];

/// Word of a kind of mark.
#[must_use]
pub const fn mark_word(kind: SketchMarkKind) -> &'static str {
    match kind {
        SketchMarkKind::Soft => "soft",
        SketchMarkKind::Bump => "bump",
        SketchMarkKind::Rut => "rut",
        SketchMarkKind::Water => "water",
        SketchMarkKind::Loose => "loose",
        SketchMarkKind::Unknown => "unknown",
    }
}

/// The fill of a kind of mark; `prefix` keeps pictures on one page apart.
pub(super) fn fill(prefix: &str, kind: SketchMarkKind) -> String {
    format!("url(#{prefix}-{})", mark_word(kind))
}

/// The patterns of all kinds and the one for missing strength.
pub(super) fn definitions(prefix: &str) -> String {
    let mut out = String::from("<defs>\n");
    for kind in KINDS {
        out.push_str(&pattern(prefix, mark_word(kind), tile(kind)));
    }
    let short = (1.1, 1.1, r#"<path d="M-.3 .3L.3 -.3M0 1.1L1.1 0M.8 1.4L1.4 .8"/>"#, ALERT, 0.28);
    out.push_str(&pattern(prefix, "deficit", short));
    out.push_str("</defs>");
    out
}

type Tile = (f64, f64, &'static str, &'static str, f64);

const fn tile(kind: SketchMarkKind) -> Tile {
    match kind {
        SketchMarkKind::Soft => {
            (1.4, 1.4, r#"<path d="M-.4 .4L.4 -.4M0 1.4L1.4 0M1 1.8L1.8 1"/>"#, INK, 0.42)
        }
        SketchMarkKind::Bump => (0.8, 0.8, r#"<path d="M.4 0V.8"/>"#, INK, 0.3),
        SketchMarkKind::Rut => (2.2, 1.5, r#"<path d="M0 .75H1.5"/>"#, INK, 0.35),
        SketchMarkKind::Water => {
            (2.4, 1.3, r#"<path d="M0 .65Q.6 .05 1.2 .65T2.4 .65"/>"#, INK, 0.28)
        }
        SketchMarkKind::Loose => (
            1.5,
            1.5,
            r#"<circle cx=".4" cy=".4" r=".16"/><circle cx="1.15" cy="1.15" r=".16"/>"#,
            INK,
            0.22,
        ),
        SketchMarkKind::Unknown => {
            (2.6, 2.6, r#"<path d="M0 0L2.6 2.6M0 2.6L2.6 0"/>"#, GREY, 0.16)
        }
    }
}

fn pattern(prefix: &str, name: &str, tile: Tile) -> String {
    let (width, height, shape, colour, pen) = tile;
    format!(
        "<pattern id=\"{prefix}-{name}\" width=\"{width}\" height=\"{height}\" \
         patternUnits=\"userSpaceOnUse\"><rect width=\"{width}\" height=\"{height}\" \
         fill=\"{PAPER}\"/><g fill=\"none\" stroke=\"{colour}\" stroke-width=\"{pen}\">{shape}\
         </g></pattern>\n"
    )
}
