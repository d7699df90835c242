//! Smallest files that show each mistake; the first file of a case is read.

/// A code and the files that show it.
pub(crate) struct Case {
    pub(crate) code: &'static str,
    pub(crate) files: &'static [(&'static str, &'static str)],
}

const fn case(code: &'static str, files: &'static [(&'static str, &'static str)]) -> Case {
    Case { code, files }
}

macro_rules! case {
    ($code:literal, $($path:literal: $text:expr),*) => {
        case($code, &[$(($path, $text)),*])
    };
}

pub(crate) const TOML: &[Case] = &[
    case!("E101",),
    case!("E104", "a.toml": " \n"),
    case!("E105", "a.toml": "kind = \"day\"\nx = [[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]\n"),
    case!("E107", "a.toml": "name = \"x\"\n"),
    case!("E201", "a.toml": "kind = \"aeroplane\"\nname = \"Tail 01\nwing = \n"),
    case!("E202", "a.toml": "kind = \"aeroplane\"\nname = \"a\"\nname = \"b\"\n"),
    case!("E203", "f.toml": "kind = \"flight\"\nstrip = \"s.toml\"\n", "s.toml": "name = \"x\"\n"),
    case!("E204", "a.toml": "name = \"a\"\nkind = \"aeroplane\"\n"),
    case!("E205", "f.toml": "kind = \"flight\"\nstrip = \"s.toml\"\n", "s.toml": "kind = \"day\"\n"),
    case!("E206", "a.toml": "kind = \"aeroplane\"\narea = \"92 m2\"\n[wing]\nhight = \"2 m\"\ncolour = \"red\"\n"),
    case!("E207", "a.toml": "kind = \"aeroplane\"\nflap = 3\n[wing]\narea = true\n"),
    case!("E208", "a.toml": "kind = \"aeroplane\"\n[[flap]]\nlift_maximum = 2.1\n"),
    case!("E301", "a.toml": "kind = \"aeroplane\"\n[gear.main.tyre]\nrated_pressure = 190\nwidth = \"14\"\n"),
    case!("E302", "a.toml": "kind = \"aeroplane\"\n[engines]\nstatic_thrust = \"16000 lb\"\n"),
    case!("E303", "a.toml": "kind = \"aeroplane\"\n[gear.main.tyre]\nrated_pressure = \"190 PSI\"\nwidth = \"14 inches\"\n"),
    case!("E304", "a.toml": "kind = \"aeroplane\"\n[wing]\narea = \"about 92 m2\"\n"),
    case!("E305", "a.toml": "kind = \"aeroplane\"\n[wing]\nengine_out_drag = nan\nspan = \"inf m\"\n"),
    case!("E306", "a.toml": "kind = \"aeroplane\"\n[gear.main.tyre]\nrated_pressure = \"5 psi\"\n[engines]\ncount = 0\n"),
    case!("E307", "s.toml": "kind = \"strip\"\nsurface = \"gravl\"\n"),
    case!("E308", "d.toml": "kind = \"day\"\ndate = \"1 May 2026\"\n"),
    case!("E309", "d.toml": "kind = \"day\"\ndate = 2026-05-01\ntime_utc = \"14:30\"\n"),
    case!("E310", "s.toml": "kind = \"strip\"\nlength = \"1 980 m\"\nwidth = \"45,5 m\"\n"),
    case!("E311", "a.toml": "kind = \"aeroplane\"\n[wing]\ngear_drag = \"0.022\"\n"),
    case!("E312", "s.toml": "kind = \"strip\"\n[low_end]\ndesignator = \"7\"\n"),
];

pub(crate) const TABLES: &[Case] = &[
    case!("E501", "s.toml": "kind = \"strip\"\nsurvey = \"s.csv\"\n", "s.csv": "0,0,284.1\n"),
    case!("E502", "s.csv": "station,offset_m,elevation_m\n"),
    case!("E503", "s.csv": "statoin_m,offset_m,elevation_m,colour\n"),
    case!("E504", "s.csv": "station_m,elevation_m\n"),
    case!("E505", "s.csv": "station_m,offset_m,elevation_m,station_ft\n"),
    case!("E506", "s.csv": "station_m,offset_m,elevation_m\n0,0\n1,0,284,1\n"),
    case!("E507", "s.csv": "station_m,offset_m,elevation_m\n0,,284\n"),
    case!("E508", "s.csv": "station_m;offset_m;elevation_m\n0;0;284,1\n"),
    case!("E509", "s.csv": "station_m,offset_m,elevation_m\n0,0,284.1\n5,0,284.2\n2.5,0,284.1\n"),
    case!("E510", "s.csv": "station_m,offset_m,elevation_m\n0,0,284.1\n0,2.6,284.1\n0,0,284.2\n"),
    case!("E511", "s.csv": "station_m,offset_m,date,hammer,soil,blows,depth_mm\n10,0,2026-05-01,8 kg,CL,5,50\n10,0,2026-05-01,8 kg,CL,5,40\n"),
    case!("E512", "s.csv": "station_m,offset_m,date,hammer,soil,blows,depth_mm\n10,0,2026-05-01,8 kg,CL,0,50\n"),
    case!("E513", "s.csv": "station_m,offset_m,date,hammer,soil,blows,depth_mm\n10,0,2026-05-01,8 kg,CL,5,50\n20,0,2026-05-01,8 kg,CL,5,40\n10,0,2026-05-01,8 kg,CL,5,90\n"),
    case!("E514", "s.csv": "station_m,offset_m,date,hammer,soil,blows,depth_mm\n10,0,2026-05-01,8 kg,CL,5,50\n10,0,2026-05-01,4.6 kg,CL,5,90\n"),
    case!("E515", "s.csv": "station_m,offset_m,date,hammer,soil,blows,depth_mm,note\n10,0,2026-05-01,8 kg,CL,5,50,refusal\n10,0,2026-05-01,8 kg,CL,5,90,\n"),
    case!("E516", "s.csv": "station_m,offset_m,elevation_m\n"),
    case!("E550", "s.toml": "kind = \"strip\"\n[[season]]\nfrom = \"April\"\nto = \"05-20\"\nstrength = \"60 %\"\n"),
    case!("E551", "s.toml": "kind = \"strip\"\n[frost]\ndaily = \"t.csv\"\nfreezing_factor = 0.95\nthawing_factor = 1.25\nfrozen_conductivity = 2.5\nthawed_conductivity = 1.9\ndry_density = \"1900 kg/m3\"\nwater_content = \"8 %\"\n", "t.csv": "date,mean_c\n2026-01-02,-3\n2026-01-01,-4\n"),
    case!("E552", "s.toml": "kind = \"strip\"\n[frost]\ndaily = \"t.csv\"\nfreezing_factor = 0.95\nthawing_factor = 1.25\nfrozen_conductivity = 2.5\nthawed_conductivity = 1.9\ndry_density = \"1900 kg/m3\"\nwater_content = \"8 %\"\n", "t.csv": "date,mean_c\n2026-01-02,-3\n2026-01-08,-4\n"),
    case!("E553", "s.toml": "kind = \"strip\"\n[frost]\ndaily = \"t.csv\"\nfreezing_factor = 0.95\nthawing_factor = 1.25\nfrozen_conductivity = 2.5\nthawed_conductivity = 1.9\ndry_density = \"1900 kg/m3\"\nwater_content = \"8 %\"\nmonthly_mean = [\"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\", \"-4 degC\"]\n", "t.csv": "date,mean_c\n2026-01-02,-3\n"),
    case!("E554", "s.toml": "kind = \"strip\"\n[frost]\ndaily = \"t.csv\"\nfreezing_factor = 0.95\nthawing_factor = 1.25\nfrozen_conductivity = 2.5\nthawed_conductivity = 1.9\ndry_density = \"1900 kg/m3\"\nwater_content = \"8 %\"\n", "t.csv": "date,mean_c\n2026-01-02,-3\n2026-01-03,-4\n"),
    case!("E555", "s.csv": "station_m,offset_m,date,hammer,soil,blows,depth_mm,note\n10,0,2026-05-01,8 kg,CL,0,0,\n10,0,2026-05-01,8 kg,CL,20,0,refusal\n"),
    case!("E556", "s.csv": "station_m,offset_m,date,hammer,soil,blows,depth_mm\n10,0,2026-05-01,8 kg,CL,5,0\n"),
    case!("E517", "s.csv": "station_m,offset_m,elevation_m\n0,0,\"284\n1,0,284\n"),
    case!("E425", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"landing distance\"\nfile = \"c.csv\"\n", "c.csv": "mass_t,distance_m\n30,1200\n35,1290\n40,4600\n"),
    case!("E530", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"take-off distance\"\nfile = \"c.csv\"\n", "c.csv": "mass_t,limit_mass_t\n30,40\n"),
    case!("E531", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"landing distance\"\nfile = \"c.csv\"\n", "c.csv": "distance_m\n1200\n"),
    case!("E532", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"landing distance\"\nfile = \"c.csv\"\n", "c.csv": "mass_t,distance_m\n30,1200\n30,1210\n"),
    case!("E533", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"landing distance\"\nfile = \"c.csv\"\n", "c.csv": "mass_t,temperature_f,distance_m\n30,50,1200\n40,50,1300\n30,90,1250\n"),
    case!("E534", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"landing distance\"\nfile = \"c.csv\"\n", "c.csv": "mass_t,distance_m\n30,1200\n40,1100\n"),
    case!("E535", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"landing distance\"\nfile = \"c.csv\"\n", "c.csv": "headwind_kt,distance_m\n0,1200\n10,1100\n"),
    case!("E536", "a.toml": "kind = \"aeroplane\"\n[[chart]]\ngives = \"landing mass\"\nfile = \"c.csv\"\n", "c.csv": "mass_t,limit_mass_t\n30,40\n"),
];

const LONG: &str = {
    const BYTES: [u8; 2001] = [b'M'; 2001];
    match std::str::from_utf8(&BYTES) {
        Ok(text) => text,
        Err(_) => "",
    }
};

pub(crate) const OTHERS: &[Case] = &[
    case!("E401", "a.toml": "kind = \"aeroplane\"\n[balance]\nforward_limit = \"34 %\"\naft_limit = \"14 %\"\n"),
    case!("E402", "a.toml": "kind = \"aeroplane\"\n[[gear.main.tyre.chart]]\nmass = \"40 t\"\npressure = \"90 psi\"\n[[gear.main.tyre.chart]]\nmass = \"30 t\"\npressure = \"95 psi\"\n"),
    case!("E403", "a.toml": "kind = \"aeroplane\"\n[[flap]]\nname = \"25\"\n[[flap]]\nname = \"25\"\n"),
    case!("E404", "f.toml": "kind = \"flight\"\naeroplane = \"a.toml\"\n[landing]\nflap = \"4\"\n", "a.toml": "kind = \"aeroplane\"\n[[flap]]\nname = \"40\"\n"),
    case!("E405", "f.toml": "kind = \"flight\"\nstrip = \"s.toml\"\n[landing]\ndirection = \"26\"\n", "s.toml": "kind = \"strip\"\nlow_end.designator = \"07\"\nhigh_end.designator = \"25\"\n"),
    case!("E406", "s.toml": "kind = \"strip\"\nlength = \"1800 m\"\nsurvey = \"s.csv\"\n", "s.csv": "station_m,offset_m,elevation_m\n0,0,284\n2010,0,280\n"),
    case!("E407", "s.toml": "kind = \"strip\"\nlength = \"1800 m\"\n[low_end]\nlanding_distance = \"1980 m\"\n"),
    case!("E408", "s.toml": "kind = \"strip\"\nbearing = \"68 deg\"\n[low_end]\ndesignator = \"25\"\n"),
    case!("E409", "s.toml": "kind = \"strip\"\n[low_end]\ndesignator = \"07\"\n[high_end]\ndesignator = \"24\"\n"),
    case!("E410", "a.toml": "kind = \"aeroplane\"\n[[limit]]\nphase = \"taxi\"\nquantity = \"speed\"\nat_most = \"20 kt\"\nat_least = \"5 kt\"\n"),
    case!("E411", "a.toml": "kind = \"aeroplane\"\n[[limit]]\nphase = \"landing\"\nquantity = \"cross-wind\"\nat_most = \"15 kt\"\n"),
    case!("E412", "a.toml": "kind = \"aeroplane\"\n[[limit]]\nphase = \"landing\"\nquantity = \"crosswind\"\nat_most = \"15 m\"\n"),
    case!("E413", "a.toml": "kind = \"aeroplane\"\n[[limit]]\nphase = \"landing\"\nquantity = \"crosswind\"\nat_least = \"15 kt\"\n"),
    case!("E414", "a.toml": "kind = \"aeroplane\"\n[engines]\nkind = \"turbofan\"\npropeller_diameter = \"3.9 m\"\n"),
    case!("E415", "a.toml": "kind = \"aeroplane\"\n[engines]\ninlet_diameter = \"1.4 m\"\ninlet_height = \"0.6 m\"\n"),
    case!("E416", "a.toml": "kind = \"aeroplane\"\n[gear.main]\nlegs = 2\nwheels = 2\n[brakes]\nwheels = 8\n"),
    case!("E417", "d.toml": "kind = \"day\"\n[wind]\nspeed = \"9 kt\"\n"),
    case!("E418", "d.toml": "kind = \"day\"\n[wind]\nfrom = \"250 deg\"\n"),
    case!("E419", "d.toml": "kind = \"day\"\ntime_utc = \"14:30Z\"\n"),
    case!("E420", "d.toml": "kind = \"day\"\ndate = 2026-06-18\nmetar = \"METAR XXHP 181200Z 25009KT 9999 14/06 Q1013\"\ntemperature = \"16 degC\"\n"),
    case!("E421", "d.toml": "kind = \"day\"\ndate = 2026-06-18\ntime_utc = \"11:00Z\"\nmetar = \"METAR XXHP 181200Z 25009KT 9999 14/06 Q1013\"\n"),
    case!("E422", "d.toml": "kind = \"day\"\nstanding_water = []\n"),
    case!("E423", "s.toml": "kind = \"strip\"\n[survey_info]\ndate = 2026-05-01\n"),
    case!("E424", "f.toml": "kind = \"flight\"\naeroplane = \"a.toml\"\n[options]\ntake_off_fuel = \"4.2 t\"\n[take_off]\nmass = \"42 t\"\nload = \"9 t\"\n", "a.toml": "kind = \"aeroplane\"\n[mass]\noperating = \"27.8 t\"\n"),
    case!("E430", "s.toml": "kind = \"strip\"\n[[obstacle]]\nstation = \"-300 m\"\noffset = \"0 m\"\nheight = \"14 m\"\nelevation = \"298 m\"\n"),
    case!("E431", "s.toml": "kind = \"strip\"\n[[area]]\nkind = \"soft\"\nfrom = \"640 m\"\nto = \"700 m\"\noffset_from = \"-8 m\"\n"),
    case!("E440", "s.toml": "kind = \"strip\"\nlength = \"120 m\"\nwidth = \"10 m\"\nsurvey = \"s.las\"\n[low_end]\neasting = \"500000 m\"\nnorthing = \"4100000 m\"\n[high_end]\neasting = \"500072 m\"\nnorthing = \"4100096 m\"\n", "s.las": "x y z\n"),
    case!("E441", "s.toml": "kind = \"strip\"\nlength = \"120 m\"\nwidth = \"10 m\"\nsurvey = \"s.las\"\n[low_end]\neasting = \"500000 m\"\nnorthing = \"4100000 m\"\n[high_end]\neasting = \"500072 m\"\n", "s.las": "x y z\n"),
    case!("E442", "s.toml": "kind = \"strip\"\nsurvey = \"s.csv\"\n[survey_info]\nvertical_unit = \"m\"\n", "s.csv": "station_m,offset_m,elevation_m\n0,0,284\n"),
    case!("E443", "s.toml": "kind = \"strip\"\nlength = \"120 m\"\nwidth = \"10 m\"\nsurvey = \"s.las\"\n[low_end]\neasting = \"500000 m\"\nnorthing = \"4100000 m\"\n[high_end]\neasting = \"500072 m\"\nnorthing = \"4100960 m\"\n", "s.las": "x y z\n"),
    case!("E444", "s.toml": "kind = \"strip\"\nlength = \"1957 m\"\nbearing = \"248 deg\"\nsurvey = \"p.csv\"\n[low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n[high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n", "p.csv": "latitude_deg,longitude_deg,height_m\n52.1,-1.3,100\n"),
    case!("E445", "s.toml": "kind = \"strip\"\n[low_end]\nlatitude = \"52.1 deg\"\n"),
    case!("E446", "s.toml": "kind = \"strip\"\nlength = \"120 m\"\nwidth = \"10 m\"\nsurvey = \"s.asc\"\n[survey_info]\nhorizontal_unit = \"m\"\nvertical_unit = \"m\"\n[low_end]\neasting = \"500000 m\"\nnorthing = \"4100000 m\"\n[high_end]\neasting = \"500072 m\"\nnorthing = \"4100096 m\"\n", "s.asc": "ncols 2\nnrows 1\nxllcorner 500000\nyllcorner 4100000\ncellsize 100\n240.1 2x0.2\n"),
    case!("E447", "s.toml": "kind = \"strip\"\nplaces = \"p.geojson\"\n[low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n[high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n", "p.geojson": "{\n  \"type\": \"FeatureCollection\",\n  \"features\": [}\n"),
    case!("E448", "s.toml": "kind = \"strip\"\nplaces = \"p.geojson\"\n[low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n[high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n", "p.geojson": "{\"type\": \"FeatureCollection\", \"features\": [\n  {\"type\": \"Feature\", \"properties\": {\"kind\": \"obstacle\", \"height\": 12},\n   \"geometry\": {\"type\": \"Point\", \"coordinates\": [-1.29, 52.1]}}\n]}\n"),
    case!("E449", "s.csv": "station_m,offset_m,elevation_m\n0,0,284.1\n5,0,932.4\n"),
    case!("E601", "r.txt": "METAR XXHP"),
    case!("E602", "r.txt": "METAR XXHP 181200Z 2502KT 9999 1O/08 Q9999"),
    case!("E603", "r.txt": "METAR XXHP 181200Z 25009KT 9999 GRUMBLE 14/06 Q1013"),
    case!("E604", "r.txt": "METAR XXHP 181200Z AUTO /////KT //// ///// Q////"),
    case!("E605", "r.txt": "METAR XXHP 181200Z 25009KT 14/06 Q1013 RMK T01660061"),
    case!("E606", "r.txt": "METAR XXHP 181200Z 25009KT 14/06 Q1013=\nSPECI XXHP 181230Z 25009KT 14/06 Q1013="),
    case!("E607", "r.txt": "METAR XXHP 181200Z NIL="),
    case!("E609", "r.txt": LONG),
    case!("E608", "d.toml": "kind = \"day\"\ndate = 2026-02-15\nmetar = \"METAR XXHP 311200Z 25009KT 9999 14/06 Q1013\"\n"),
];
