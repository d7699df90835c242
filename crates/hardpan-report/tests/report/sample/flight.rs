//! Masses, speeds, distances and card lines of the invented flight.

use hardpan_assess::{
    CardLine, CardLineKind, DayFigures, DistanceRow, MassAnswer, MassLimit, Phrase, PressureRow,
    Remedy, SpeedRow, StateChange, Turn, Turning, TurningPoint, TyreAnswer,
};
use hardpan_model::{Phase, SurfaceState, Verdict};
use hardpan_quantity::{Amount, celsius, feet, hectopascals, kilopascals, knots, metres, tonnes};

pub(super) fn limit(code: &'static str, title: &str, mass: Option<f64>) -> MassLimit {
    MassLimit { code, title: title.to_owned(), mass: mass.map(tonnes) }
}

pub(super) fn take_off_mass() -> MassAnswer {
    MassAnswer {
        planned: Some(tonnes(43.2)),
        largest: Some(tonnes(44.1)),
        load: Some(tonnes(12.1)),
        limits: vec![
            limit("G20", "ground strength at 600–690 m", Some(44.1)),
            limit("F20", "accelerate-stop distance", Some(45.6)),
            limit("R20", "ride over the bump at 910 m", Some(47.9)),
            limit("F40", "climb with an engine failed", Some(49.3)),
            limit("M10", "structure", Some(52.0)),
        ],
        unknown: None,
    }
}

pub(super) fn landing_mass() -> MassAnswer {
    MassAnswer {
        planned: Some(tonnes(41.0)),
        largest: Some(tonnes(46.3)),
        load: None,
        limits: vec![
            limit("G20", "ground strength at 600–690 m", Some(46.3)),
            limit("M11", "structure", Some(47.0)),
            limit("F30", "landing distance", Some(48.8)),
        ],
        unknown: None,
    }
}

pub(super) fn tyre() -> TyreAnswer {
    let row = |kpa: f64, ground: Option<f64>, tyre: f64| PressureRow {
        pressure: kilopascals(kpa),
        ground: ground.map(tonnes),
        tyre: Some(tonnes(tyre)),
    };
    TyreAnswer {
        set: Some(kilopascals(560.0)),
        because: "least pressure that the tyre chart allows at 43.2 t, and 5 % over it".to_owned(),
        least: Some(kilopascals(530.0)),
        greatest: Some(kilopascals(620.0)),
        table: vec![
            row(480.0, Some(48.9), 38.1),
            row(520.0, Some(46.8), 42.0),
            row(560.0, Some(44.1), 45.9),
            row(600.0, Some(41.7), 49.8),
            row(640.0, None, 52.0),
        ],
    }
}

pub(super) fn speeds() -> Vec<SpeedRow> {
    vec![
        SpeedRow::new("VREF", "reference landing speed", knots(118.0)),
        SpeedRow::new("V1", "decision speed", knots(104.0)),
        SpeedRow::new("VR", "rotation speed", knots(112.0)),
        SpeedRow::new("V2", "take-off safety speed", knots(121.0)),
    ]
}

pub(super) fn distances() -> Vec<DistanceRow> {
    let row = |code, name: &str, needed: f64, available: Option<f64>| DistanceRow {
        code,
        name: name.to_owned(),
        needed: metres(needed),
        available: available.map(metres),
    };
    vec![
        row("F30", "landing", 1655.0, Some(1920.0)),
        row("F10", "take-off run", 1390.0, Some(1980.0)),
        row("F11", "take-off", 1710.0, Some(1980.0)),
        row("F20", "accelerate-stop", 1865.0, Some(1980.0)),
    ]
}

pub(super) fn day() -> DayFigures {
    DayFigures {
        rows: vec![
            ("crosswind".to_owned(), knots(9.0).into()),
            ("tailwind, landing 07".to_owned(), knots(3.0).into()),
            ("headwind, take-off 25".to_owned(), knots(3.0).into()),
            ("temperature".to_owned(), celsius(17.0).into()),
            ("air pressure".to_owned(), Amount::air_pressure(hectopascals(1009.0))),
            ("density altitude".to_owned(), feet(2480.0).into()),
        ],
    }
}

pub(super) fn turning() -> Turning {
    let point = |what, now: Amount, holds_to: Amount, beyond: Amount, words: &str| TurningPoint {
        what,
        now,
        holds_to,
        beyond,
        turn: Some(Turn {
            verdict: Verdict::Fail,
            code: "F40",
            title: "Climb after take-off".to_owned(),
        }),
        sentence: Phrase::new(
            format!("holds to {words}: beyond it F40 Climb after take-off gives fail"),
            [holds_to],
        ),
        short: Phrase::new(words, [holds_to]),
    };
    let temperature = |degrees| celsius(degrees).into();
    Turning {
        points: vec![point(
            "temperature",
            temperature(22.0),
            temperature(31.0),
            temperature(32.0),
            "{}",
        )],
        states: vec![StateChange {
            state: SurfaceState::Wet,
            verdict: Verdict::Unproven,
            governed_by: Some(("F20", "Accelerate-stop distance".to_owned())),
        }],
    }
}

pub(super) fn remedies() -> Vec<Remedy> {
    vec![
        Remedy {
            action: "Roll and reload 600–690 m with 150 mm of crushed gravel.".into(),
            effect: "Take-off up to 49.3 t; the climb then governs.".into(),
            verdict_after: Verdict::Pass,
            mends: vec!["G20", "G30"],
            left: Vec::new(),
        },
        Remedy {
            action: "Set the main tyres to 530 kPa.".into(),
            effect: "Take-off up to 43.0 t by the tyre chart.".into(),
            verdict_after: Verdict::Conditional,
            mends: vec!["G20"],
            left: vec!["G30"],
        },
    ]
}

pub(super) fn card_line(
    phase: Phase,
    kind: CardLineKind,
    text: &str,
    amount: Option<Amount>,
    source: &str,
) -> CardLine {
    let text = match amount {
        Some(amount) => format!("{text} {}", amount.told()),
        None => text.to_owned(),
    };
    CardLine { phase, kind, text, amount, source: source.to_owned() }
}

pub(super) fn card_lines() -> Vec<CardLine> {
    use CardLineKind::{Computed, Handling, Limit};
    let kt = |value: f64| Some(Amount::from(knots(value)));
    let turn = Some(metres(25.0).into());
    vec![
        card_line(Phase::Always, Limit, "Crosswind at most", kt(15.0), "manual supplement 9, 2.3"),
        card_line(
            Phase::Landing,
            Limit,
            "Reverse idle below",
            kt(60.0),
            "manual supplement 9, 2.5",
        ),
        card_line(
            Phase::Landing,
            Handling,
            "Hold the nose up until 80 kt.",
            None,
            "operations 8.4",
        ),
        card_line(Phase::Landing, Computed, "Cross 600–690 m faster than", kt(70.0), "G20"),
        card_line(
            Phase::AfterLanding,
            Handling,
            "Flaps stay down until parked.",
            None,
            "operations 8.4",
        ),
        card_line(Phase::Taxi, Limit, "Taxi at most", kt(15.0), "manual supplement 9, 2.6"),
        card_line(Phase::Taxi, Computed, "No turn tighter than radius", turn, "G30"),
        card_line(
            Phase::BeforeBrakeRelease,
            Limit,
            "Dissipators on",
            None,
            "manual supplement 9, 2.1",
        ),
        card_line(
            Phase::BeforeBrakeRelease,
            Handling,
            "Set thrust while rolling, not on the brakes.",
            None,
            "operations 8.5",
        ),
        card_line(Phase::TakeOff, Computed, "Full thrust not below", kt(40.0), "D10"),
        card_line(Phase::TakeOff, Handling, "Unload the nose wheel early.", None, "operations 8.5"),
        card_line(Phase::Climb, Limit, "Gear down until", kt(155.0), "manual 3.2"),
        card_line(
            Phase::Climb,
            Handling,
            "Leave the gear down for one minute.",
            None,
            "operations 8.5",
        ),
    ]
}
