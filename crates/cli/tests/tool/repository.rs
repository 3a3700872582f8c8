//! A repository of many specs that differ as real ones do: sizes, materials, cases, libraries, now and then a mistake.

#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::write;
use std::path::Path;

/// One spec in so many has a mistake in it.
pub const MISTAKE: usize = 250;
/// So many specs share a library.
const SHARED: usize = 40;

/// Numbers that look drawn and are always the same: Knuth's multiplier for 64 bits (MMIX, published; from memory).
struct Drawn(u64);

impl Drawn {
    fn next(&mut self, below: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % below
    }
    fn of<'a>(&mut self, all: &[&'a str]) -> &'a str {
        all[usize::try_from(self.next(all.len() as u64)).unwrap()]
    }
}

pub fn repository(folder: &Path, count: usize) {
    write(folder, "workshop.yaml", "");
    for shelf in 0..count.div_ceil(SHARED) {
        let limit = 8 + shelf % 9;
        let text = format!("materials:\n  bush_{shelf}: {{like: pom, sliding: {{p_limit: {limit} MPa (label)}}}}\n");
        write(folder, &format!("parts/shelf-{shelf:03}.yaml"), &text);
    }
    for number in 0..count {
        write(folder, &format!("{:02}/m-{number:05}.machine.yaml", number / 100), &spec(number));
    }
}

pub fn spec(number: usize) -> String {
    let mut drawn = Drawn(number as u64 + 1);
    let shelf = number / SHARED;
    let (mass, low, high) = (25 + drawn.next(60), drawn.next(35), drawn.next(30));
    let mut text = format!(
        "dryfit: 1\nmachine: {{name: Sledge {number}, revision: {}, mass: {mass} kg ± 1 kg (weighed)}}\n\
         libraries: [../parts/shelf-{shelf:03}.yaml]\n\
         environment: {{air: -{low} °C to {high} °C, relative_humidity: 90 % (guess), altitude: 0 m to 400 m}}\n\
         cases:\n  haul: {{kind: cruise, speed: {} km/h, duration: 40 min}}\n  wait: {{kind: idle, duration: 20 min}}\n\
         powertrain:\n  bearings:\n",
        drawn.of(&["A", "B", "C", "D"]),
        2 + drawn.next(7),
    );
    for bearing in 0..2 + drawn.next(6) {
        let shelf_material = format!("bush_{shelf}");
        let material = drawn.of(&["pom", "pa6", &shelf_material]).to_owned();
        text.push_str(&format!(
            "    roller_{bearing}: {{kind: plain, material: {material}, bore: {} mm, length: {} mm, lubrication: {}, dirt: {}, \
             load: {} N ± 10 % (measured), speed: {} rpm}}\n",
            6 + drawn.next(10),
            8 + drawn.next(20),
            drawn.of(&["none", "grease"]),
            drawn.of(&["mud", "snow_and_grit"]),
            10 + drawn.next(300),
            20 + drawn.next(500),
        ));
    }
    let motion = if number % MISTAKE == MISTAKE - 1 { "rotatng" } else { "rotating" };
    text.push_str(&format!(
        "structure:\n  parts: {{axle: {{material: {}}}, wheel: {{material: pom}}}}\n  contacts:\n    \
         wheel_on_axle: {{of: [wheel, axle], motion: {motion}, between: {}}}\n",
        drawn.of(&["carbon_tube", "aluminium_6061", "mild_steel"]),
        drawn.of(&["none", "metal_sleeve"]),
    ));
    text
}
