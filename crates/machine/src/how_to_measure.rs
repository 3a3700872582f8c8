//! How to find out in the shop what a field asks for: two scales, a caliper, a thermometer, a fish scale, a stopwatch.

/// (type, field, sentence). The schema shows it beside the field, and 'not judged' prints it.
const SHOP: &[(&str, &str, &str)] = &[
    (
        "About",
        "mass",
        "put it on a bathroom scale with you holding it, and take off your own weight; or one end at a time",
    ),
    ("Point", "x", "weigh both ends on two scales: x is the wheelbase times the front reading over the sum"),
    ("Point", "z", "weigh both ends level, then with one end raised, and work the height out from the shift"),
    ("Environment", "relative_humidity", "the nearest weather station's figure for a damp day is good enough"),
    ("Zone", "air_rise", "tape a thermometer inside the closed box and read it after ten minutes of driving"),
    ("Zone", "trapped_water", "weigh a paper towel, wipe the box out after a day, and weigh it again"),
    ("Battery", "capacity", "charge it full and note the charger's counter"),
    ("Battery", "resistance", "read the volts at rest and at a steady load: volts dropped over amps"),
    (
        "Motor",
        "speed_constant",
        "turn the shaft with a drill of known rpm and read the volts between two wires: rpm over peak volts",
    ),
    (
        "Motor",
        "resistance",
        "send a known direct current of some amps through two wires and read the volts between them",
    ),
    ("Motor", "no_load_current", "run it with nothing on the shaft and read the supply's amps"),
    ("Motor", "pole_pairs", "count the magnets of the rotor and halve them"),
    (
        "Motor",
        "rotor_inertia",
        "hang the rotor on two strings, twist it and time the swings; or weigh its ring: mass times radius squared",
    ),
    (
        "Motor",
        "stop_time",
        "log the motor's speed in a hop at full power and read how long it takes from its highest to zero",
    ),
    (
        "Powertrain",
        "line_stiffness",
        "wedge the track fast, put a lever on the motor's shaft, pull it with a fish scale and read the angle: force times arm over angle",
    ),
    ("Controller", "timing_advance", "it stands in its settings, as degrees of timing"),
    ("Controller", "electrical_speed_max", "it stands in the papers of the controller, in electrical rpm"),
    ("Motor", "mass", "kitchen scale, or the label"),
    (
        "Motor",
        "magnet_temperature_max",
        "the maker says it; plain magnets stand 80 °C, those marked H 120 °C, SH 150 °C",
    ),
    (
        "Motor",
        "to_air",
        "send so many watts through the windings (volts times amps, shaft still) until the case settles: kelvin over the air, divided by watts",
    ),
    (
        "Controller",
        "to_air",
        "read its sensor after half an hour of steady driving: kelvin over the air, divided by the watts that it loses",
    ),
    ("Controller", "mass", "kitchen scale"),
    ("Controller", "temperature_min", "it stands in its papers"),
    ("Battery", "foam", "push a needle through it to the cells and measure how deep it goes"),
    (
        "Battery",
        "to_air",
        "carry the warm pack out into the cold and read a probe between the cells: hours until the gap to the air has shrunk to 37 %, times 3600, divided by mass times 1000",
    ),
    ("Battery", "size", "tape measure round the cells, without the foam"),
    ("Cells", "charge_temperature_min", "it stands in the data sheet of the cell"),
    (
        "AfterRun",
        "readings",
        "stop, switch everything off, and read a stuck-on thermometer each minute for ten minutes",
    ),
    ("Device", "temperature_min", "leave it in the freezer overnight with a thermometer, and try it"),
    ("Device", "temperature_max", "it stands in its papers"),
    ("Device", "to_air", "let it run for half an hour: kelvin over the air, divided by volts times amps"),
    ("Pump", "free_flow", "let it fill a jug of known size and stop the time"),
    ("Pump", "stall_pressure", "close the outlet with a pressure gauge on it, briefly"),
    ("Pump", "displacement", "turn it by hand ten turns into a syringe"),
    ("Pump", "started_at", "leave the machine out on a cold night, switch on, and watch the return into the reservoir"),
    ("Filling", "glycol", "a refractometer shows it from one drop"),
    (
        "Filling",
        "clear_to",
        "leave a jar of it in the freezer overnight with a thermometer in it, and look for crystals",
    ),
    ("Filling", "volume", "fill it from a measuring jug"),
    ("Reservoir", "gas_space", "measure the height of the air above the level and multiply by the plan area"),
    (
        "Hose",
        "tightest_bend",
        "lay coins or lids into the bend until one fits its inside, and add half the hose's diameter",
    ),
    ("Hose", "bend_radius_min", "it stands in the hose's data sheet"),
    (
        "BentTest",
        "radius",
        "bend a piece from the freezer round bottles, ever thinner ones: half the bottle and half the hose",
    ),
    ("BentTest", "temperature", "read the freezer's thermometer after a night"),
    ("Hose", "bore", "push a drill shank in that just fits"),
    ("Plate", "heat", "volts times amps lost in it; or the coolant's warming times flow times its heat capacity"),
    ("Plate", "area", "wrap paper round what the coolant touches, and measure the paper"),
    ("Channel", "length", "lay a string along it"),
    ("Track", "mass", "lay it on a kitchen scale"),
    (
        "Track",
        "slack_tension",
        "pull the slack side at mid span with a fish scale until it gives a tenth of the span: tension is 2.5 times that pull",
    ),
    ("Track", "pitch", "measure over ten links and divide"),
    ("PinnedLinks", "wall_round_pin", "measure the thinnest plastic beside the hole with a caliper"),
    ("Lug", "mass", "weigh ten"),
    (
        "Coupon",
        "strength",
        "print a strip the same way, pull it with a fish scale until it breaks, and divide by its cross-section",
    ),
    ("PlainBearing", "load", "lift the wheel off the ground with a scale under it, or take its share of the weight"),
    ("PlainBearing", "length", "caliper along the part of the bush that really bears"),
    ("Wheel", "share_of_weight", "put a scale under this wheel alone and divide by the machine's weight"),
    ("Wheel", "corner", "lift the machine by this wheel alone: it is the corner whose spring gives first"),
    ("Wheel", "track_wrap", "hold a protractor against the track on both sides of the wheel"),
    ("Corner", "sprung_mass_each", "scale under this wheel, machine level, minus what hangs below the spring"),
    ("Corner", "motion_ratio", "raise the wheel 20 mm and measure how much shorter the damper gets: that over 20"),
    ("Corner", "damper_travel", "measure the free rod from stop to stop"),
    ("Spring", "wire", "caliper on the wire, paint scraped off"),
    ("Spring", "mean_diameter", "outside diameter minus one wire thickness"),
    ("Spring", "active_coils", "count the coils that are free to move; closed ends do not count"),
    ("Spring", "free_length", "caliper on the unloaded spring"),
    ("Spring", "rate", "stand a known weight on it and measure how much shorter it gets"),
    ("Preload", "collar", "measure how far the collar stands from where the spring just touches"),
    ("PushTest", "movement", "push with a bathroom scale between and read a ruler"),
    ("Joint", "torque", "a torque screwdriver; by hand with the short end of a hex key it is about 1 N·m"),
    ("Joint", "flange_width", "caliper from the groove to the outer edge"),
    ("Seal", "length", "lay a string along the groove"),
    ("Seal", "encloses", "lay squared paper over the lid and count"),
    ("Cord", "diameter", "caliper on the cord, hardly touching it"),
    ("Cord", "closed_to", "depth of the groove with the tail of the caliper"),
    (
        "Cycled",
        "times",
        "freezer and warm oven by turns, an hour each, filled with dyed water: look for colour outside",
    ),
    ("OilDamper", "hole_diameter", "push a drill shank in that just fits"),
];

/// The sentence for a field, if there is one.
#[must_use]
pub fn how_to_measure(owner: &str, field: &str) -> Option<&'static str> {
    SHOP.iter().find(|row| row.0 == owner && row.1 == field).map(|row| row.2)
}

/// All rows, for the schema.
pub(crate) fn rows() -> &'static [(&'static str, &'static str, &'static str)] {
    SHOP
}
