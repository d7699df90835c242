//! One tail: masses, balance, wing, engines, gear, tyres, brakes, speeds,
//! protective equipment and approved limits.

use crate::{
    ApprovedLimit, Chart, ClearancePoint, Equipment, Given, Handling, SurfaceKind, SurfaceState,
    Zone,
};
use hardpan_quantity::{
    Area, Energy, Force, Length, Mass, MassFlow, Power, Pressure, Ratio, Speed, Temperature, Time,
    Torque, Volume,
};

/// One aeroplane as its file describes it. Anything may be missing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Aeroplane {
    /// Registration or other name of the tail.
    pub name: Option<Given<String>>,
    /// What it is, in words.
    pub description: Option<Given<String>>,
    /// Mass limits.
    pub mass: MassLimits,
    /// Where the mass sits.
    pub balance: Balance,
    /// Wing.
    pub wing: Wing,
    /// Flap settings, in the order of the file.
    pub flaps: Vec<FlapSetting>,
    /// Engines.
    pub engines: Engines,
    /// Landing gear.
    pub gear: Gear,
    /// What holds it straight on its wheels.
    pub control: GroundControl,
    /// What the ride over bumps needs beside the gear.
    pub ride: RideData,
    /// Brakes.
    pub brakes: Brakes,
    /// Speeds as ratios, and control speeds.
    pub speeds: SpeedRatios,
    /// Protective equipment.
    pub equipment: Vec<Equipment>,
    /// Parts of the underside that thrown stones can meet.
    pub zones: Vec<Zone>,
    /// Low points that must stay clear of the ground.
    pub clearances: Vec<ClearancePoint>,
    /// Approved performance charts.
    pub charts: Vec<Chart>,
    /// Approved limits by phase.
    pub limits: Vec<ApprovedLimit>,
    /// Handling by phase, in the operator's words.
    pub handling: Vec<Handling>,
    /// Constants fitted to the charts, which stand in place of those stated.
    pub fitted: Option<Fitted>,
}

/// Constants of the model fitted to the operator's charts.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Fitted {
    /// Static thrust of an engine.
    pub static_thrust: Option<Given<Force>>,
    /// Shaft power of an engine.
    pub shaft_power: Option<Given<Power>>,
    /// Lift and drag by flap.
    pub flaps: Vec<FittedFlap>,
    /// Rolling and braking by surface and state.
    pub friction: Vec<FittedFriction>,
}

/// Fitted lift and drag of a flap setting.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedFlap {
    /// Its name.
    pub name: Given<String>,
    /// Greatest lift coefficient.
    pub lift_maximum: Option<Given<f64>>,
    /// Drag coefficient at zero lift.
    pub drag_zero_lift: Option<Given<f64>>,
}

/// Fitted friction on a surface in a state.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedFriction {
    /// Surface.
    pub surface: SurfaceKind,
    /// Its state.
    pub state: SurfaceState,
    /// Rolling coefficient.
    pub rolling: Given<f64>,
    /// Braking coefficient.
    pub braking: Given<f64>,
    /// Standard deviation of the rolling coefficient, as a share of it.
    pub rolling_deviation: Given<Ratio>,
    /// Standard deviation of the braking coefficient, as a share of it.
    pub braking_deviation: Given<Ratio>,
}

/// Structural mass limits.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MassLimits {
    /// Lightest mass at which a movement is flown (empty plus crew and reserve).
    pub minimum: Option<Given<Mass>>,
    /// Maximum take-off mass.
    pub maximum_take_off: Option<Given<Mass>>,
    /// Maximum landing mass.
    pub maximum_landing: Option<Given<Mass>>,
    /// Maximum mass without usable fuel.
    pub maximum_zero_fuel: Option<Given<Mass>>,
    /// Mass ready to fly, without load and without usable fuel.
    pub operating: Option<Given<Mass>>,
}

/// Centre of gravity and gear positions, in per cent of the mean chord.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Balance {
    /// Mean aerodynamic chord.
    pub mean_chord: Option<Given<Length>>,
    /// Position of the main gear on the mean chord.
    pub main_gear_at: Option<Given<Ratio>>,
    /// Height of the centre of gravity over the ground, for the load that
    /// braking moves to the nose.
    pub centre_of_gravity_height: Option<Given<Length>>,
    /// Forward limit of the centre of gravity.
    pub forward_limit: Option<Given<Ratio>>,
    /// Aft limit of the centre of gravity.
    pub aft_limit: Option<Given<Ratio>>,
}

/// Wing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Wing {
    /// Reference area.
    pub area: Option<Given<Area>>,
    /// Span.
    pub span: Option<Given<Length>>,
    /// Height of the wing over the ground during the roll.
    pub height: Option<Given<Length>>,
    /// Drag coefficient added by one engine out (windmilling and trim).
    pub engine_out_drag: Option<Given<f64>>,
    /// Drag coefficient added by the landing gear when down, protective
    /// equipment on it included.
    pub gear_drag: Option<Given<f64>>,
}

/// One flap setting.
#[derive(Debug, Clone, PartialEq)]
pub struct FlapSetting {
    /// Name on the lever.
    pub name: Given<String>,
    /// Maximum lift coefficient.
    pub lift_maximum: Option<Given<f64>>,
    /// Lift coefficient during the roll, spoilers in.
    pub lift_rolling: Option<Given<f64>>,
    /// Lift coefficient while stopping, ground spoilers out.
    pub lift_stopping: Option<Given<f64>>,
    /// Drag coefficient at zero lift, gear up.
    pub drag_zero_lift: Option<Given<f64>>,
    /// Drag coefficient added by the ground spoilers.
    pub drag_spoilers: Option<Given<f64>>,
    /// Induced drag factor `k` in `C_D = C_D0 + k C_L^2`, out of ground effect.
    pub induced_factor: Option<Given<f64>>,
    /// Whether the operator allows it for take-off from an unpaved strip.
    pub take_off: Option<Given<bool>>,
    /// Whether the operator allows it for landing on an unpaved strip.
    pub landing: Option<Given<bool>>,
}

/// What drives the aeroplane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EngineKind {
    /// Turbofan.
    Turbofan,
    /// Turboprop with propeller.
    Turboprop,
}

/// Engines; each value is for one engine.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Engines {
    /// Turbofan or turboprop.
    pub kind: Option<Given<EngineKind>>,
    /// How many.
    pub count: Option<Given<u32>>,
    /// Static take-off thrust at sea level, standard day (turbofan).
    pub static_thrust: Option<Given<Force>>,
    /// Bypass ratio (turbofan).
    pub bypass_ratio: Option<Given<f64>>,
    /// Outside temperature up to which take-off thrust or power is constant at
    /// sea level.
    pub flat_rated_to: Option<Given<Temperature>>,
    /// Shaft power at take-off (turboprop).
    pub shaft_power: Option<Given<Power>>,
    /// Propeller diameter (turboprop).
    pub propeller_diameter: Option<Given<Length>>,
    /// Propeller efficiency at lift-off speed (turboprop).
    pub propeller_efficiency: Option<Given<Ratio>>,
    /// Idle thrust as a share of static take-off thrust.
    pub idle_share: Option<Given<Ratio>>,
    /// Inner diameter of the inlet (turbofan).
    pub inlet_diameter: Option<Given<Length>>,
    /// Height of the inlet's centre over the ground.
    pub inlet_height: Option<Given<Length>>,
    /// Air mass flow at static take-off thrust (turbofan).
    pub air_flow: Option<Given<MassFlow>>,
    /// Share of thrust lost to the bleeds as set for the take-off.
    pub bleed_loss: Option<Given<Ratio>>,
    /// Maximum continuous thrust or power as a share of that of the take-off.
    pub continuous_share: Option<Given<Ratio>>,
    /// Thrust while taxiing as a share of static take-off thrust.
    pub taxi_share: Option<Given<Ratio>>,
    /// Height of the propeller's axis over the ground (turboprop).
    pub propeller_height: Option<Given<Length>>,
    /// Name of the equipment that blows the inlet vortex away, if there is one.
    pub dissipators: Option<Given<String>>,
    /// Reverse thrust.
    pub reverse: Reverse,
    /// What the crew sets for thrust.
    pub setting: ThrustSetting,
}

/// The parameter by which the crew sets thrust, and the thrust that it gives.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct ThrustSetting {
    /// Its name, such as engine pressure ratio, fan speed or torque.
    pub name: Option<Given<String>>,
    /// What it gives, rising; empty where that is not stated.
    pub rows: Vec<SettingRow>,
}

/// One row of the table from what is set to thrust.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingRow {
    /// What is set, as its instrument shows it.
    pub value: Given<f64>,
    /// Thrust over static take-off thrust in air of standard pressure, with the
    /// bleeds as set for the take-off; shaft power likewise for a turboprop.
    pub share: Given<Ratio>,
}

/// Reverse thrust of one engine.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Reverse {
    /// Approved airspeed by which reverse thrust is back at idle.
    pub idle_by: Option<Given<Speed>>,
    /// Approved airspeed by which the reversers are stowed, or the propellers
    /// out of reverse.
    pub stowed_by: Option<Given<Speed>>,
    /// Diameter of a circle with the exit area of the lowest lobe (turbofan).
    pub efflux_diameter: Option<Given<Length>>,
    /// Speed of the efflux at full reverse (turbofan).
    pub efflux_speed: Option<Given<Speed>>,
    /// From where the lowest lobe strikes the ground forward to the point
    /// under the inlet lip (turbofan).
    pub lip_distance: Option<Given<Length>>,
    /// How many engines have it.
    pub engines: Option<Given<u32>>,
    /// Time from brakes on until it is set.
    pub set_after: Option<Given<Time>>,
    /// Net reverse thrust by airspeed, rising; empty where none is to be counted.
    pub rows: Vec<ReverseRow>,
    /// Surfaces on which an approved manual counts it in the distances.
    pub approvals: Vec<ReverseApproval>,
}

/// Net reverse thrust of one engine at an airspeed.
#[derive(Debug, Clone, PartialEq)]
pub struct ReverseRow {
    /// Airspeed.
    pub airspeed: Given<Speed>,
    /// Force backwards.
    pub force: Given<Force>,
}

/// Approval to count reverse thrust on a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct ReverseApproval {
    /// The surface.
    pub surface: Given<SurfaceKind>,
    /// Place in the approved manual.
    pub manual: Given<String>,
}

/// Landing gear.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Gear {
    /// Distance between nose and main gear.
    pub wheelbase: Option<Given<Length>>,
    /// Distance between the centres of the outer main legs.
    pub track: Option<Given<Length>>,
    /// Side force of the wind over its dynamic pressure, across the aeroplane.
    pub side_force_area: Option<Given<Area>>,
    /// Height of the side force over the ground.
    pub side_force_height: Option<Given<Length>>,
    /// Share of the weight that the greatest crosswind moves to the lee leg.
    pub crosswind_share: Option<Given<Ratio>>,
    /// Each main leg.
    pub main: Leg,
    /// The nose leg.
    pub nose: Leg,
}

/// What holds the aeroplane straight on its wheels.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct GroundControl {
    /// Side force of the rudder fully over, over the dynamic pressure.
    pub rudder_force_area: Option<Given<Area>>,
    /// Distance of that force behind the main wheels.
    pub rudder_arm: Option<Given<Length>>,
    /// Distance of the outermost engine from the centre line.
    pub engine_arm: Option<Given<Length>>,
    /// Distance behind the main wheels at which the side force of the wind acts.
    pub side_force_behind: Option<Given<Length>>,
    /// Side force of the steered nose wheel over its load and the braking
    /// coefficient of the ground.
    pub nose_side_factor: Option<Given<f64>>,
}

/// The body as the ride over bumps sees it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct RideData {
    /// Radius of gyration in pitch about the centre of gravity.
    pub pitch_gyration: Option<Given<Length>>,
    /// Cockpit seats ahead of the nose wheels; negative behind them.
    pub cockpit_ahead: Option<Given<Length>>,
}

/// One oleo-pneumatic strut.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Strut {
    /// Pneumatic area.
    pub piston_area: Option<Given<Area>>,
    /// Gas pressure fully extended.
    pub preload_pressure: Option<Given<Pressure>>,
    /// Gas volume fully extended.
    pub gas_volume: Option<Given<Volume>>,
    /// Polytropic exponent of the gas.
    pub polytropic: Option<Given<f64>>,
    /// Force of the oil at `damping_rate`; it grows with the square of the rate.
    pub damping_force: Option<Given<Force>>,
    /// Stroke rate at which the oil gives `damping_force`.
    pub damping_rate: Option<Given<Speed>>,
    /// Mass of one leg that moves with its wheels.
    pub unsprung_mass: Option<Given<Mass>>,
}

/// One kind of leg.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Leg {
    /// How many such legs.
    pub legs: Option<Given<u32>>,
    /// Wheels on one leg.
    pub wheels: Option<Given<u32>>,
    /// Distance between wheels side by side on one leg.
    pub spacing: Option<Given<Length>>,
    /// Distance between wheel rows of one leg, for bogies.
    pub tandem_spacing: Option<Given<Length>>,
    /// Stroke left from the static position to the bottom of the strut.
    pub stroke_left: Option<Given<Length>>,
    /// Its tyres.
    pub tyre: Tyre,
    /// Its strut.
    pub strut: Strut,
}

/// One tyre and what its maker or the operator allows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Tyre {
    /// Outside diameter.
    pub diameter: Option<Given<Length>>,
    /// Section width.
    pub width: Option<Given<Length>>,
    /// Diameter of the flange of the wheel.
    pub flange_diameter: Option<Given<Length>>,
    /// Height of the axle over the ground, tyre inflated and loaded.
    pub loaded_radius: Option<Given<Length>>,
    /// Height of the axle over the ground with the tyre flat.
    pub flat_radius: Option<Given<Length>>,
    /// Rated load.
    pub rated_load: Option<Given<Force>>,
    /// Rated inflation pressure, the one that goes with the rated load.
    pub rated_pressure: Option<Given<Pressure>>,
    /// Least pressure ever allowed.
    pub minimum_pressure: Option<Given<Pressure>>,
    /// Greatest pressure ever allowed.
    pub maximum_pressure: Option<Given<Pressure>>,
    /// Rated ground speed.
    pub rated_speed: Option<Given<Speed>>,
    /// Approved chart: least pressure against aeroplane mass, rising masses.
    pub chart: Vec<TyreChartRow>,
    /// The maker's table: least pressure against load of one tyre, rising loads.
    pub load_table: Vec<TyreLoadRow>,
}

/// One row of the maker's table of tyre pressure against load.
#[derive(Debug, Clone, PartialEq)]
pub struct TyreLoadRow {
    /// Load of one tyre.
    pub load: Given<Force>,
    /// Least pressure allowed at that load.
    pub pressure: Given<Pressure>,
}

/// One row of the approved chart of tyre pressure against mass.
#[derive(Debug, Clone, PartialEq)]
pub struct TyreChartRow {
    /// Aeroplane mass.
    pub mass: Given<Mass>,
    /// Least pressure allowed at that mass.
    pub pressure: Given<Pressure>,
}

/// How the anti-skid system works, which decides how much of the tyre's grip it uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AntiSkid {
    /// On and off.
    OnOff,
    /// Quasi-modulating.
    QuasiModulating,
    /// Fully modulating.
    FullyModulating,
}

/// Wheel brakes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Brakes {
    /// Anti-skid system.
    pub anti_skid: Option<Given<AntiSkid>>,
    /// Braked wheels.
    pub wheels: Option<Given<u32>>,
    /// Braking coefficient of the aeroplane on dry pavement, at full pedal.
    pub paved_dry_coefficient: Option<Given<f64>>,
    /// Greatest energy that one brake may take in one stop.
    pub energy_limit: Option<Given<Energy>>,
    /// Greatest force of one brake at the ground: its torque over the height of
    /// its axle.
    pub force_limit: Option<Given<Force>>,
    /// Greatest torque of one brake; the loaded radius of the main tyre makes a
    /// force at the ground of it.
    pub torque_limit: Option<Given<Torque>>,
    /// Approved chart: time on the ground after a stop, before the brakes may
    /// take another, against energy of one brake; rising energies.
    pub cooling: Vec<CoolingRow>,
}

/// One row of the approved chart of brake cooling.
#[derive(Debug, Clone, PartialEq)]
pub struct CoolingRow {
    /// Energy that one brake took.
    pub energy: Given<Energy>,
    /// Time until it may take another stop.
    pub wait: Given<Time>,
}

/// Speeds as ratios to the reference stall speed, control speeds and times.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SpeedRatios {
    /// Rotation speed over reference stall speed.
    pub rotation: Option<Given<Ratio>>,
    /// Lift-off speed over reference stall speed.
    pub lift_off: Option<Given<Ratio>>,
    /// Take-off safety speed `V2` over reference stall speed.
    pub safety: Option<Given<Ratio>>,
    /// Landing reference speed over reference stall speed in landing flap.
    pub reference: Option<Given<Ratio>>,
    /// Touchdown speed over landing reference speed.
    pub touchdown: Option<Given<Ratio>>,
    /// Minimum control speed on the ground, rudder alone.
    pub minimum_control_ground: Option<Given<Speed>>,
    /// Greatest swing off the centre line after an engine failure at the lowest
    /// decision speed used; 30 ft under the rule where the maker states none.
    pub control_swing: Option<Given<Length>>,
    /// Minimum control speed in the air.
    pub minimum_control_air: Option<Given<Speed>>,
    /// Minimum unstick speed over the reference stall speed.
    pub minimum_unstick: Option<Given<Ratio>>,
    /// Minimum control speed in the approach.
    pub minimum_control_approach: Option<Given<Speed>>,
    /// Time from rotation to lift-off.
    pub rotation_time: Option<Given<Time>>,
    /// Time from touchdown to full braking.
    pub brake_delay: Option<Given<Time>>,
    /// Time from lift-off until the gear is up, as the operator flies it.
    pub gear_up_after: Option<Given<Time>>,
}
