//! The inputs, without libraries.

use crate::{Case, case};

/// A spec that is fine but for `body`.
pub fn spec(body: &str) -> String {
    format!("dryfit: 1\nmachine: {{name: sled}}\n{body}\n")
}

/// Its answer is only counted.
pub const MANY: &str = "six thousand errors";

fn sick(name: &'static str, body: &str) -> Case {
    case(name, spec(body))
}

/// Bytes, characters and YAML itself.
pub fn text() -> Vec<Case> {
    let utf16: Vec<u8> =
        [0xff, 0xfe].into_iter().chain("dryfit: 1\n".encode_utf16().flat_map(u16::to_le_bytes)).collect();
    let utf16_unmarked: Vec<u8> = "dryfit: 1\nmachine: {name: x}\n".encode_utf16().flat_map(u16::to_le_bytes).collect();
    let many_keys: String = (0..30).map(|n| format!("  part_{n}: {{mass: 1 kg}}\n")).collect();
    let levels = ["a: [x, x, x, x, x, x, x, x, x]".to_owned()].into_iter().map(|line| line.replace("a: ", "a: &l0 "));
    let bomb: Vec<String> = levels
        .chain((1..30).map(|n| format!("b{n}: &l{n} [{}]", vec![format!("*l{}", n - 1); 9].join(", "))))
        .collect();
    vec![
        sick("a spec that is fine", ""),
        case("not UTF-8", b"dryfit: 1\nmachine: {name: \"caf\xe9\"}\n".as_slice()),
        case("binary", (0..=255).collect::<Vec<u8>>()),
        case("UTF-16 with its mark", utf16),
        case("UTF-16 without a mark", utf16_unmarked),
        case("byte order mark", format!("\u{feff}{}", spec("")).into_bytes()),
        case("byte order mark before an error", format!("\u{feff}colour: red\n{}", spec("")).into_bytes()),
        case("CRLF", spec("service: {spares_carried: [belt]}").replace('\n', "\r\n")),
        case("CRLF before an error", spec("structure:\n  parts:\n    arm: {mass: 5 mm}").replace('\n', "\r\n")),
        case("wide letters before an error", spec("structure: {parts: {Größe-雪: {mass: 5 mm}}}")),
        sick("tab for indentation", "structure:\n\tparts: {}"),
        sick("tab inside a line is fine", "structure:\t{parts: {}}"),
        case("empty", ""),
        case("only blanks", " \n\t\r\n  "),
        case("only comments", "# nothing yet\n# still nothing\n"),
        case("only three dashes", "---\n"),
        case("three dashes in front are fine", format!("---\n{}", spec(""))),
        case("two documents", format!("{}---\n{}", spec(""), spec(""))),
        case("list at the top", "- dryfit: 1\n- machine: {name: x}\n"),
        case("text at the top", "hello\n"),
        case("null at the top", "~\n"),
        case("NUL bytes", "dryfit: 1\0\nmachine: {name: x}\n"),
        sick("unclosed bracket", "service: {spares_carried: [belt, chain"),
        sick("unclosed quote", "service: {spares_carried: [\"belt]}"),
        sick("closed too often", "service: {spares_carried: [belt]]}"),
        case(
            "no blank behind the colon",
            "dryfit: 1\nmachine: {name: x}\nstructure:\n  parts:\n    arm:\n      mass:1 kg\n      span: 2 m\n",
        ),
        case("indented unevenly", "dryfit: 1\nmachine:\n  name: x\n   mass: 1 kg\n"),
        case("text runs on over a colon", "dryfit: 1\nmachine:\n  name: sled: the second\n"),
        sick("unknown escape", r#"service: {spares_carried: ["a\qb"]}"#),
        sick("name begins with a sign of YAML", "service: {spares_carried: [@belt]}"),
        sick("alias of nothing", "structure: {parts: *arms}"),
        sick("duplicate key", "structure:\n  parts:\n    arm: {mass: 1 kg}\n    arm: {mass: 2 kg}"),
        sick(
            "duplicate among many keys",
            &format!("structure:\n parts:\n{many_keys}  part_3: {{mass: 2 kg}}\n  part_29: {{mass: 2 kg}}"),
        ),
        case("duplicate section", format!("{}machine: {{name: other}}\n", spec(""))),
        sick("tag", "service: {spares_carried: [!!str 12]}"),
        sick("own tag", "structure: !include parts.yaml"),
        sick("tag on a map", "structure: !thing {parts: {}}"),
        sick("merge key", "structure:\n  parts:\n    arm: &arm {mass: 1 kg}\n    leg: {<<: *arm, span: 1 m}"),
        sick("alias inside itself", "structure: &s {parts: *s}"),
        sick("alias bomb", &bomb.join("\n")),
        sick(
            "ladder of aliases",
            &format!(
                "structure: &l0 [x]\n{}",
                (1..3000).map(|n| format!("b{n}: &l{n} [*l{}]\n", n - 1)).collect::<String>()
            ),
        ),
        sick("aliases are fine", "structure: {parts: {arm: &a {mass: 1 kg}, leg: *a}}"),
        sick("nested very deep", &format!("structure: {}", "[".repeat(3000))),
        sick("indented very deep", &(0..100).map(|n| format!("{}k:\n", " ".repeat(n))).collect::<String>()),
        sick("key that is a map", "structure: {parts: {{a: b}: {mass: 1 kg}}}"),
        sick("key that is a list", "structure: {parts: {[a, b]: {mass: 1 kg}}}"),
        sick("key with a question mark", "structure:\n  parts:\n    ? arm\n    : {mass: 5 mm}"),
        sick("empty key", "structure: {parts: {\"\": {mass: 5 mm}}}"),
        sick("key of 10,000 letters", &format!("{}: 1", "k".repeat(10_000))),
        sick("quoted key of 10,000 letters", &format!("\"{}\": 1", "k".repeat(10_000))),
        sick("control characters in names", "structure: {parts: {\"a\\e[31mb\\0\": {mass: 5 mm, colour: \"\\e[2J\"}}}"),
        sick("block text is fine", "service:\n  every:\n    chain: |\n      oil it\n      wipe it\n\n"),
        sick(
            "block text where a value is wanted",
            "structure:\n  parts:\n    arm:\n      mass: |\n        5\n        kg\n\n      span: 1 m",
        ),
        sick("too large", "").limits(|limits| limits.bytes = 20),
        sick("too many nodes", "structure: {parts: {a: {mass: 1 kg}, b: {mass: 1 kg}, c: {mass: 1 kg}}}")
            .limits(|limits| limits.nodes = 12),
        sick("too many copies", "structure: {parts: {a: &a {mass: 1 kg, span: 2 m}, b: *a, c: *a, d: *a}}")
            .limits(|limits| limits.copies = 7),
    ]
}

/// Sections, keys, kinds, references.
pub fn shape() -> Vec<Case> {
    vec![
        case("no format number", "machine: {name: x}\n"),
        case("no machine", "dryfit: 1\n"),
        case("machine without a name", "dryfit: 1\nmachine: {mass: 5 kg}\n"),
        case("machine is empty", "dryfit: 1\nmachine:\nstructure: {}\n"),
        case("other format number", "dryfit: 7\nmachine: {name: x}\n"),
        case("format number in words", "dryfit: one\nmachine: {name: x}\n"),
        case("format number with a share", "dryfit: 1.5\nmachine: {name: x}\n"),
        case("format number in quotes", "dryfit: \"1\"\nmachine: {name: x}\n"),
        sick("unknown section, near", "suspention: {}"),
        sick("unknown section, far", "colour: red"),
        sick("unknown key, near", "structure: {parts: {arm: {thicknes: 3 mm}}}"),
        sick("unknown key, far", "structure: {parts: {arm: {paint: red}}}"),
        sick("key with a hyphen", "structure: {parts: {arm: {axis-offset: 3 mm}}}"),
        sick("key in capitals", "Structure: {parts: {}}"),
        sick("unknown kind, near", "powertrain: {bearings: {idler: {kind: plane, bore: 12 mm}}}"),
        sick("unknown kind, far", "powertrain: {bearings: {idler: {kind: magnetic, bore: 12 mm}}}"),
        sick("kind missing", "powertrain: {bearings: {idler: {bore: 12 mm}}}"),
        sick("kind is a list", "powertrain: {bearings: {idler: {kind: [plain], bore: 12 mm}}}"),
        sick("kind is empty", "powertrain: {bearings: {idler: {kind: , bore: 12 mm}}}"),
        sick("kind is a number", "powertrain: {bearings: {idler: {kind: 6001, size: x}}}"),
        sick("kind of a case missing", "cases: {climb: {grade: 15 °}}"),
        sick("key of the other kind", "powertrain: {bearings: {idler: {kind: plain, size: 6001-2RS}}}"),
        sick("key beside a kind without any", "suspension: {front: {damper: {kind: none, bore: 3 mm}}}"),
        sick("bare word for a kind with fields", "suspension: {front: {damper: oil}}"),
        sick("unknown bare word for a kind", "suspension: {front: {damper: air}}"),
        sick("list for a kind", "suspension: {front: {damper: [none]}}"),
        sick("unknown word, near", "environment: {exposure: [slush, roadsalt]}"),
        sick("unknown word, far", "environment: {surface: linoleum}"),
        sick("word in capitals", "environment: {surface: Ice}"),
        sick("words where one is wanted", "environment: {surface: [ice, mud]}"),
        sick("word where a list is wanted", "environment: {exposure: slush}"),
        sick("map as list", "structure: {parts: [{mass: 1 kg}]}"),
        sick("list as map", "powertrain: {stages: {one: {kind: spur, name: one}}}"),
        sick("section is text", "structure: printed"),
        sick("no blank behind a colon at all", "structure:\n  parts:\n    arm:\n      mass:1 kg"),
        sick("section is a number", "structure: 12"),
        sick("section is a list", "structure: [printed]"),
        sick("empty section", "structure:"),
        sick("empty part", "structure:\n  parts:\n    arm:\n    leg: {mass: 1 kg}"),
        sick("empty value", "structure: {parts: {arm: {mass: , span: 1 m}}}"),
        sick("null written out", "structure: {parts: {arm: {mass: null}}}"),
        sick("empty item of a list", "service:\n  spares_carried:\n    - belt\n    -\n    - chain"),
        sick("tilde for a word", "environment: {surface: ~}"),
        sick("number as a name", "service: {spares_carried: [12]}"),
        case("number as the machine's name", "dryfit: 1\nmachine: {name: 77}\n"),
        sick("truth as a name", "service: {spares_carried: [true]}"),
        sick("text where yes or no is wanted", "structure: {parts: {arm: {exposed: maybe}}}"),
        sick("number where yes or no is wanted", "structure: {parts: {arm: {exposed: 1}}}"),
        sick(
            "yes and no are fine",
            "structure: {parts: {arm: {exposed: yes, consumable: no, }, leg: {exposed: true, consumable: False}}}",
        ),
        sick("on for yes", "structure: {parts: {arm: {exposed: on}}}"),
        sick("YES for yes", "structure: {parts: {arm: {exposed: YES}}}"),
        sick(
            "dangling reference, near",
            "materials: {tough_pla: {family: printed_polymer}}\nstructure: {parts: {arm: {material: tough_pls}}}",
        ),
        sick(
            "dangling reference, far",
            "materials: {tough_pla: {family: printed_polymer}}\nstructure: {parts: {arm: {material: unobtainium}}}",
        ),
        sick("dangling reference without such a section", "structure: {parts: {arm: {zone: loft}}}"),
        sick(
            "dangling reference, nested in a list",
            "structure:\n  parts: {arm: {}, leg: {}}\n  joints:\n    hip: {of: [arm, leg]}\n    knee:\n      of: [leg, shim]",
        ),
        sick(
            "dangling reference to one of several sections",
            "structure: {parts: {arm: {}}, contacts: {rub: {of: [arm, axel]}}}\npowertrain: {shafts: {axle: {}}}",
        ),
        sick(
            "reference to a thing that is wrong itself",
            "materials: {pom: {family: plastic}}\nstructure: {parts: {arm: {material: pom}}}",
        ),
        sick("reference is a map", "structure: {parts: {arm: {material: {family: metal}}}}"),
        sick("reference is a number", "structure: {parts: {arm: {material: 6061}}}"),
        sick("reference is a list", "structure: {parts: {arm: {material: [pom, pla]}}}"),
        sick("like to nothing, near", "structure: {parts: {arm: {mass: 1 kg}, leg: {like: amr}}}"),
        sick("like to nothing, far", "structure: {parts: {arm: {mass: 1 kg}, leg: {like: wheelbarrow}}}"),
        sick("like itself", "structure: {parts: {arm: {like: arm, mass: 1 kg}}}"),
        sick("like in a circle", "structure: {parts: {arm: {like: leg}, leg: {like: arm}}}"),
        sick(
            "like in a circle of three, and one outside it",
            "structure: {parts: {a: {like: b}, b: {like: c}, c: {like: b}}}",
        ),
        sick(
            "like in a chain of 20,000",
            &format!(
                "structure:\n parts:\n{}",
                (0..20_000).map(|n| format!("  p{n}: {{like: p{}}}\n", n + 1)).collect::<String>()
            ),
        ),
        sick(
            "like in a chain of a hundred, largest first",
            &format!(
                "structure:\n parts:\n  p100: {{mass: 1 kg}}\n{}",
                (0..100).rev().map(|n| format!("  p{n}: {{like: p{}}}\n", n + 1)).collect::<String>()
            ),
        ),
        sick("like in a list", "powertrain: {stages: [{kind: spur, name: a}, {kind: spur, like: a, name: b}]}"),
        case("like at the top", spec("like: machine")),
        sick("like is a list", "structure: {parts: {arm: {like: [leg]}, leg: {}}}"),
        sick("like is fine", "structure: {parts: {arm: {mass: 1 kg}, leg: {like: arm, span: 1 m}}}"),
        sick("error in what like copies", "structure: {parts: {arm: {mass: 5 mm}, leg: {like: arm, span: 1 m}}}"),
        sick(
            "like something of another kind",
            "powertrain: {bearings: {a: {kind: plain, bore: 3 mm}, b: {like: a, kind: rolling, size: 6001}}}",
        ),
        sick("required field missing", "suspension: {front: {}}\nservice: {}\nconcessions: {a: {rule: bearing-pv}}"),
        case(
            "spec lacks everything and has other errors",
            "structure: {parts: {arm: {mass: 5 mm, material: pomm}}}\nmaterials: {pom: {family: polymer}}\n",
        ),
        case(
            "machine is wrong, and other things too",
            "dryfit: 1\nmachine: sled\nstructure: {parts: {arm: {mass: -5 kg, material: pomm}}}\n",
        ),
        sick(
            MANY,
            &format!(
                "structure:\n parts:\n{}",
                (0..3000).map(|n| format!("  p{n}: {{mass: 5 mm, colour: red}}\n")).collect::<String>()
            ),
        ),
        sick(
            "many errors at once",
            "environment:\n  air: 8 °C to -30 °C\n  surface: linoleum\nstructure:\n  parts:\n    arm: {mass: 5 mm, paint: red, material: pomm}\n    leg: 12\nmaterials:\n  pom: {family: polymer, density: 1,4 g/cm³}\nsuspention: {}",
        ),
    ]
}

/// Numbers, units, tables.
pub fn values() -> Vec<Case> {
    let mass = |name, text: &str| sick(name, &format!("structure: {{parts: {{arm: {{mass: {text}}}}}}}"));
    let length = |name, text: &str| sick(name, &format!("structure: {{parts: {{arm: {{span: {text}}}}}}}"));
    let air = |name, text: &str| sick(name, &format!("environment: {{air: {text}}}"));
    let walls = |name, text: &str| sick(name, &format!("structure: {{printing: {{walls: {text}}}}}"));
    let table = |name, text: &str| sick(name, &format!("materials: {{pom: {{family: polymer, strength_at: {text}}}}}"));
    let force = |name, text: &str| sick(name, &format!("powertrain: {{track: {{slack_tension: {text}}}}}"));
    vec![
        sick(
            "gears that nobody cuts",
            "powertrain: {stages: [{name: first, kind: spur, module: 0 mm, face_width: -14 mm, pinion: {teeth: -17, profile_shift: -0.2}, wheel: {teeth: 0, profile_shift: a bit}}]}",
        ),
        sick(
            "chain with a negative ratio",
            "powertrain: {stages: [{name: first, kind: chain, driving_teeth: 12, driven_teeth: -23}]}",
        ),
        sick("hose of no length", "cooling: {hoses: {suction: {bore: 8 mm, wall: 2 mm, length: 0 m}}}"),
        sick("plate that takes heat away", "cooling: {circuit: [{kind: plate, name: cold, heat: -40 W}]}"),
        sick("circuit that is one word", "cooling: {circuit: pump}"),
        sick(
            "pump that cools itself with what does not exist",
            "cooling: {circuit: [{kind: plate, name: a, cools: pumps}]}",
        ),
        sick(
            "windings and wires without resistance",
            "powertrain: {battery: {resistance: 0 Ω}, motor: {resistance: 0 mΩ, speed_constant: 0 rpm/V, count: 0}}",
        ),
        walls("huge number", "1e999"),
        mass("huge number with a unit", "1e999 kg"),
        walls("not a number", ".nan"),
        walls("infinity", ".inf"),
        walls("minus infinity", "-.inf"),
        mass("NaN as text", "NaN"),
        mass("NaN with a unit", "NaN kg"),
        walls("hexadecimal", "0x10"),
        walls("leading zero", "010"),
        walls("octal", "0o17"),
        walls("digits in groups", "1_000"),
        walls("number with a share for a count", "4.5"),
        walls("quoted number for a count", "\"4\""),
        walls("zero for a count", "0"),
        walls("negative count", "-3"),
        walls("count in words", "four"),
        walls("count with a unit", "4 mm"),
        walls("list for a count", "[4]"),
        walls("map for a count", "{n: 4}"),
        walls("truth for a count", "true"),
        length("negative length", "-3 mm"),
        length("zero length", "0 mm"),
        length("unit missing", "12"),
        length("quoted, unit missing", "\"12\""),
        length("area for a length", "12 mm²"),
        length("no blank before the unit", "12mm"),
        length("capital in the unit", "12 Mm"),
        sick("comma for the point", "structure:\n  parts:\n    arm:\n      span: 1,5 mm"),
        length("comma inside braces", "1,5 mm"),
        length("mil", "12 mil"),
        length("unit that nobody knows", "12 furlongs"),
        length("unit in words", "12 millimetres"),
        length("text for a length", "long"),
        length("truth for a length", "yes"),
        length("list for a length", "[12 mm, 13 mm]"),
        length("map for a length", "{value: 12, unit: mm}"),
        length("tolerance larger than the value", "12 mm ± 15 mm"),
        length("tolerance with a sign", "12 mm ± -1 mm"),
        length("unknown source of a figure", "12 mm (guessed)"),
        length("calculation", "3 * 4 mm"),
        length("more text behind", "12 mm or so"),
        length("range where one value is wanted", "12 mm to 14 mm"),
        length("range with a dash", "12-14 mm"),
        air("below absolute zero", "-300 °C"),
        air("range below absolute zero", "-300 °C to 8 °C"),
        air("range upside down", "8 °C to -30 °C"),
        air("range with a dash where a range is wanted", "-30 - 8 °C"),
        air("range without units", "-30 to 8"),
        air("no degree sign", "20C"),
        air("bare number for a temperature", "-30"),
        air("list for a range", "[-30 °C, 8 °C]"),
        sick("difference for a temperature", "zones: {box: {air_rise: 20 °C}}"),
        force("kilograms for a force", "5 kg"),
        sick("per cent over hundred", "environment: {relative_humidity: 140 %}"),
        sick("share for per cent", "environment: {relative_humidity: 0.85}"),
        sick("altitude out of this world", "environment: {altitude: 99 km}"),
        table("table is fine", "{-20 °C: 1.3, 20 °C: 1}"),
        table("table not rising", "{20 °C: 1, -20 °C: 1.3}"),
        table("table with the same point twice", "{20 °C: 1, 293.15 K: 1.3}"),
        table("table empty", "{}"),
        table("table is a list", "[1, 2]"),
        table("table is a number", "1.2"),
        table("key of a table without unit", "{20: 1}"),
        table("key of a table with another unit", "{20 mm: 1}"),
        table("value of a table with a unit", "{20 °C: 1 mm}"),
        table("value of a table empty", "{20 °C: }"),
        sick(
            "second value of a table is wrong",
            "coolants:\n  brine:\n    kind: tabulated\n    density: {0 °C: 1100 kg/m³, 20 °C: 1.1 kg}\n    heat_capacity: {0 °C: 3 kJ/(kg·K)}\n    conductivity: {0 °C: 0.5 W/(m·K)}\n    viscosity: {0 °C: 5 mPa·s}",
        ),
    ]
}
