//! The unit of a cloud: as the file states it, or as the user does; never guessed.

use super::wkt::{Wkt, unit_of};
use crate::Error;
use las::crs::{GeoTiffCrs, GeoTiffData};

/// Units that clouds come in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CloudUnit {
    /// Metre.
    Metre,
    /// Foot of 0.3048 m.
    Foot,
    /// Survey foot of the United States, 1200/3937 m.
    SurveyFoot,
}

impl CloudUnit {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Metre, Self::Foot, Self::SurveyFoot];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Metre => "m",
            Self::Foot => "ft",
            Self::SurveyFoot => "ftUS",
        }
    }

    /// Its length in metres. Source: [NIST-SP-811] appendix B.6.
    #[must_use]
    pub const fn metres(self) -> f64 {
        match self {
            Self::Metre => 1.0,
            Self::Foot => 0.3048,
            Self::SurveyFoot => 1200.0 / 3937.0,
        }
    }
}

/// Keys of the GeoTIFF standard. Source: [OGC-19-008] annex D.
const MODEL_TYPE: u16 = 1024;
const PROJECTED: u16 = 3072;
const PROJECTED_UNIT: u16 = 3076;
const VERTICAL_UNIT: u16 = 4099;
const GEOGRAPHIC: u16 = 2;
const GEOCENTRIC: u16 = 3;

/// Two factors that differ by less are one unit: the two feet differ by 2e-6.
const SAME_UNIT: f64 = 1e-7;

/// Metres for one unit of the plane and one of height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Units {
    pub(crate) horizontal: f64,
    pub(crate) vertical: f64,
}

#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Stated {
    horizontal: Option<f64>,
    vertical: Option<f64>,
}

/// The units of a file.
pub(crate) fn units(
    header: &las::Header,
    horizontal: Option<CloudUnit>,
    vertical: Option<CloudUnit>,
) -> Result<Units, Error> {
    let stated = match header.get_wkt_crs_bytes() {
        Some(bytes) => from_wkt(&String::from_utf8_lossy(bytes))?,
        None => match header.get_geotiff_crs() {
            Ok(Some(keys)) => from_keys(&keys)?,
            // Keys that cannot be read state nothing; the user then must.
            Ok(None) | Err(_) => Stated::default(),
        },
    };
    Ok(Units {
        horizontal: one("horizontal", stated.horizontal, horizontal)?,
        vertical: one("vertical", stated.vertical, vertical)?,
    })
}

fn one(which: &'static str, file: Option<f64>, user: Option<CloudUnit>) -> Result<f64, Error> {
    match (file, user) {
        (Some(file), Some(user)) if (file / user.metres() - 1.0).abs() > SAME_UNIT => {
            Err(Error::UnitsDisagree { which, file_m: file, user: user.word() })
        }
        (Some(file), _) => Ok(file),
        (None, Some(user)) => Ok(user.metres()),
        (None, None) => Err(Error::UnitUnknown { which }),
    }
}

fn from_wkt(text: &str) -> Result<Stated, Error> {
    let text = text.trim_end_matches('\0');
    let projected = Wkt::find(text, &["PROJCS", "PROJCRS", "PROJECTEDCRS"]);
    let geographic = ["GEOGCS", "GEOGCRS", "GEODCRS", "GEOGRAPHICCRS", "GEODETICCRS", "GEOCCS"];
    if projected.is_none() && Wkt::find(text, &geographic).is_some() {
        return Err(Error::NotPlane);
    }
    let vertical = Wkt::find(text, &["VERT_CS", "VERTCRS", "VERTICALCRS"]);
    Ok(Stated { horizontal: projected.and_then(unit_of), vertical: vertical.and_then(unit_of) })
}

fn from_keys(keys: &GeoTiffCrs) -> Result<Stated, Error> {
    from_shorts(&|id: u16| {
        keys.entries.iter().find(|entry| entry.id == id).and_then(|entry| match entry.data {
            GeoTiffData::U16(value) => Some(value),
            _ => None,
        })
    })
}

/// The units of a file that states its frame in keys of the GeoTIFF standard.
pub(crate) fn units_of_keys(
    short: &dyn Fn(u16) -> Option<u16>,
    horizontal: Option<CloudUnit>,
    vertical: Option<CloudUnit>,
) -> Result<Units, Error> {
    let stated = from_shorts(short)?;
    Ok(Units {
        horizontal: one("horizontal", stated.horizontal, horizontal)?,
        vertical: one("vertical", stated.vertical, vertical)?,
    })
}

fn from_shorts(short: &dyn Fn(u16) -> Option<u16>) -> Result<Stated, Error> {
    if matches!(short(MODEL_TYPE), Some(GEOGRAPHIC | GEOCENTRIC)) {
        return Err(Error::NotPlane);
    }
    // Zones of the universal transverse Mercator projection are in metres.
    let of_zone = short(PROJECTED)
        .filter(|code| matches!(code, 32_601..=32_660 | 32_701..=32_760))
        .map(|_| CloudUnit::Metre.metres());
    Ok(Stated {
        horizontal: short(PROJECTED_UNIT).and_then(linear_unit).or(of_zone),
        vertical: short(VERTICAL_UNIT).and_then(linear_unit),
    })
}

/// Codes of linear units. Source: [OGC-19-008] annex on unit codes.
fn linear_unit(code: u16) -> Option<f64> {
    let unit = match code {
        9001 => CloudUnit::Metre,
        9002 => CloudUnit::Foot,
        9003 => CloudUnit::SurveyFoot,
        _ => return None,
    };
    Some(unit.metres())
}

#[cfg(test)]
mod tests {
    use super::*;

    const FEET: &str = r#"COMPD_CS["a",PROJCS["b [odd] name",GEOGCS["c",UNIT["degree",0.0174532925199433]],
        PROJECTION["d"],PARAMETER["e",1],UNIT["foot",0.3048,AUTHORITY["EPSG","9002"]]],
        VERT_CS["f",VERT_DATUM["g",2005],UNIT["US survey foot",0.304800609601219]]]"#;
    const METRES: &str = r#"PROJCRS["a",BASEGEOGCRS["b",DATUM["c",ELLIPSOID["d",6378137,298.257,
        LENGTHUNIT["metre",1]]]],CONVERSION["e",METHOD["f"]],CS[Cartesian,2],
        AXIS["E",east,ORDER[1],LENGTHUNIT["metre",1]],AXIS["N",north,LENGTHUNIT["metre",1]]]"#;

    #[test]
    fn well_known_text_states_both_units() {
        let stated = from_wkt(FEET).expect("a plane frame");
        assert_eq!(stated.horizontal, Some(0.3048));
        let vertical = stated.vertical.expect("a unit");
        assert!((vertical / CloudUnit::SurveyFoot.metres() - 1.0).abs() < SAME_UNIT);
    }

    #[test]
    fn the_newer_form_states_the_unit_on_its_axes_and_no_height() {
        let stated = from_wkt(METRES).expect("a plane frame");
        assert_eq!(stated, Stated { horizontal: Some(1.0), vertical: None });
    }

    #[test]
    fn degrees_are_refused() {
        let text = r#"GEOGCS["a",DATUM["b"],UNIT["degree",0.0174532925199433]]"#;
        assert_eq!(from_wkt(text), Err(Error::NotPlane));
    }

    #[test]
    fn nothing_is_guessed_and_two_statements_must_agree() {
        assert_eq!(one("vertical", None, None), Err(Error::UnitUnknown { which: "vertical" }));
        let apart = one("vertical", Some(0.3048), Some(CloudUnit::SurveyFoot));
        assert!(matches!(apart, Err(Error::UnitsDisagree { .. })));
        assert_eq!(one("vertical", None, Some(CloudUnit::Foot)), Ok(0.3048));
    }

    #[test]
    fn broken_text_states_nothing() {
        for cut in 0..FEET.len() {
            if let Some(part) = FEET.get(..cut) {
                let _ = from_wkt(part);
            }
        }
    }
}
