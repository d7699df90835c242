//! The principles of unpaved flying that a lesson goes through, in the order in
//! which a captain meets them. What they say is common practice, no source; the
//! rules under each cite their own.

/// One chapter before any flight fills it.
pub(super) struct Plan {
    /// Heading.
    pub(super) title: &'static str,
    /// The principle.
    pub(super) principle: &'static str,
    /// First letters of the codes of its rules.
    pub(super) letters: &'static str,
    /// Figure that belongs to it.
    pub(super) picture: Option<Picture>,
}

/// A figure of the flight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Picture {
    /// The strip by station.
    Strip,
    /// The runs by station.
    Runs,
    /// Stones thrown at the aeroplane.
    Stones,
}

/// Every chapter.
pub(super) const PLANS: [Plan; 9] = [
    Plan {
        title: "Is the strip known?",
        principle: "A strip is judged by what was measured on it, place by place, and by how long \
                    ago. A mean over the whole strip hides the one place that stops an aeroplane. \
                    What nobody measured is unproven, and an unproven safety check holds up the \
                    whole answer: absence of data is never a pass.",
        letters: "S",
        picture: Some(Picture::Strip),
    },
    Plan {
        title: "Is it even enough?",
        principle: "One bump is judged by its height over its length; many small ones by what they \
                    do to the aeroplane at the speed that it really has there. Bumps that each \
                    pass alone may still shake it apart when they come in step.",
        letters: "R",
        picture: None,
    },
    Plan {
        title: "Is it firm enough, and for how often?",
        principle: "The ground carries a wheel load at a contact pressure a number of times. It \
                    gives way at the weakest layer of the weakest place under the wheels, not at \
                    the strength of the strip as a whole; each pass leaves it a little worse; and \
                    braking and tight turns ask more of the surface than rolling does.",
        letters: "G",
        picture: None,
    },
    Plan {
        title: "Which tyre pressure?",
        principle: "A softer tyre spreads the load and spares the ground, but it bends more, heats \
                    more, carries less and skids on water at a lower speed. The right pressure is \
                    the least that tyre and approved chart allow, as far as the ground asks for it.",
        letters: "T",
        picture: None,
    },
    Plan {
        title: "What do water and season change?",
        principle: "Water softens the ground, takes friction from the brakes and drags at the \
                    wheels, so the same strip is another strip after rain or thaw. An answer holds \
                    for the state of the surface that was reported, and for no other.",
        letters: "W",
        picture: None,
    },
    Plan {
        title: "Is there room to go, to stop and to land?",
        principle: "Distances are worked out along this very ground: its slope, its rolling \
                    resistance, its friction, wheel brakes alone. Reverse thrust that throws stones \
                    into the engines is no brake to count on.",
        letters: "F",
        picture: Some(Picture::Runs),
    },
    Plan {
        title: "What may this aeroplane do at all?",
        principle: "Approved limits bind. A model may make an answer stricter, never kinder; where \
                    no approved figure exists its answer is for planning only.",
        letters: "AL",
        picture: None,
    },
    Plan {
        title: "How are stones kept out of engines and off the airframe?",
        principle: "A stone moves when thrust or a tyre moves it. Thrust is set while rolling, once \
                    the air comes into the inlet from ahead and no vortex reaches the ground; it is \
                    taken off before the blast of reverse overtakes the aeroplane; and deflectors \
                    stop only the stones that would meet them.",
        letters: "D",
        picture: Some(Picture::Stones),
    },
    Plan {
        title: "Is the protective equipment fit?",
        principle: "Protection that is not fitted, not inspected or outside its limits protects \
                    nothing, and the approval to use such strips ends with it.",
        letters: "E",
        picture: None,
    },
];
