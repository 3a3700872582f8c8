//! `dryfit words [THING]`: what can be written in a spec, where, in which units, and how it is found out in the shop. All of
//! it stands in the published schema and the catalogue; nothing is known here a second time.

use crate::{UNUSABLE, output};
use quantity::m;
use serde_json::{Map, Value};
use std::fmt::Write;

/// So many places, and so many of what is built in, are told for a word that is looked for.
const MOST: usize = 24;
/// So many places of the same thing are named.
const PLACES: usize = 4;

/// What the trade calls otherwise than a spec does (common practice, no source).
const TRADE: [(&str, &str); 12] = [
    ("gearbox", "stages"),
    ("transmission", "stages"),
    ("shock", "damper"),
    ("shock_absorber", "damper"),
    ("radiator", "exchanger"),
    ("cooler", "exchanger"),
    ("water_block", "plate"),
    ("frame", "parts"),
    ("accumulator", "battery"),
    ("esc", "controller"),
    ("axle", "shafts"),
    ("bolt", "screws"),
];

/// One key that a spec may hold.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Place {
    /// Of the thing that holds it: `cooling.hoses.NAME`; empty at the top.
    holder: String,
    key: String,
    /// What stands behind it: an example with its units, or the words to choose from.
    takes: String,
    says: String,
    measure: String,
}

pub fn words(wanted: Option<&str>) -> u8 {
    let schema = machine::machine_schema();
    let places = places(&schema);
    let width = output::width().clamp(40, 100);
    match wanted {
        None => output::print(&sections(&places, width)),
        Some(word) => match answer(&places, word, width) {
            Some(text) => output::print(&text),
            None => {
                let keys = places.iter().map(|place| place.key.as_str());
                let near = document::nearest(word, keys.chain(catalogue::keys().map(|(_, key)| key)));
                let hint = near.map_or_else(
                    || "`dryfit words` lists the sections of a spec".to_owned(),
                    |near| format!("did you mean `{near}`?"),
                );
                output::complain(&format!(
                    "nothing in a spec is called `{}`, nor said to be; {hint}",
                    render::clean(word)
                ));
                UNUSABLE
            }
        },
    }
}

fn sections(places: &[Place], width: usize) -> String {
    let mut out = String::from(
        "A spec has these sections; `dryfit words NAME` shows what stands in one, or where a word is used:\n\n",
    );
    for place in places.iter().filter(|place| place.holder.is_empty()) {
        out.push_str(&told(place, width));
    }
    out
}

/// What is known of a word: the things of that name with their keys, else every key and everything built in that speaks of it.
fn answer(places: &[Place], wanted: &str, width: usize) -> Option<String> {
    let word = wanted.trim().to_lowercase().replace([' ', '-'], "_");
    let word = TRADE.iter().find(|(trade, _)| *trade == word).map_or(word.as_str(), |(_, ours)| ours);
    if word.is_empty() {
        return None;
    }
    let mut out = things(places, word, width);
    if out.is_empty() {
        let spaced = word.replace('_', " ");
        let speaks = |text: &str| {
            let text = text.to_lowercase();
            text.contains(word) || text.contains(&spaced)
        };
        let mut found: Vec<&Place> = places.iter().filter(|place| speaks(&place.key)).collect();
        found.extend(places.iter().filter(|place| {
            !speaks(&place.key) && [&place.says, &place.takes, &place.measure].into_iter().any(|text| speaks(text))
        }));
        for place in found.iter().take(MOST) {
            out.push_str(&told(&Place { key: path(place), ..(*place).clone() }, width));
        }
        if found.len() > MOST {
            let _ = writeln!(out, "and {} more places", found.len() - MOST);
        }
    }
    let built_in: Vec<String> = catalogue::keys()
        .filter(|(section, key)| key.contains(word) || *section == word)
        .map(|(section, key)| format!("{key} ({section})"))
        .collect();
    if !built_in.is_empty() {
        let mut names = built_in.iter().take(MOST).cloned().collect::<Vec<_>>().join(", ");
        if built_in.len() > MOST {
            let _ = write!(names, " and {} more", built_in.len() - MOST);
        }
        out.push_str(&render::fold(&format!("built in: {names}"), 0, width));
    }
    (!out.is_empty()).then_some(out)
}

/// Each kind of thing that the word names, once, with all that can be written in it.
fn things(places: &[Place], word: &str, width: usize) -> String {
    let is_it = |holder: &str| {
        let last = holder.trim_end_matches(".NAME").trim_end_matches(".N");
        let last = if word.contains('.') { last } else { last.rsplit('.').next().unwrap_or("") };
        last == word || last.strip_suffix('s') == Some(word)
    };
    let mut holders: Vec<&str> = Vec::new();
    for place in places {
        if is_it(&place.holder) && !holders.contains(&place.holder.as_str()) {
            holders.push(&place.holder);
        }
    }
    // The same thing may stand in many places.
    let mut told_of: Vec<(Vec<&Place>, Vec<&str>)> = Vec::new();
    for holder in holders {
        let keys: Vec<&Place> = places.iter().filter(|place| place.holder == holder).collect();
        let same = |other: &[&Place]| {
            other.len() == keys.len() && other.iter().zip(&keys).all(|(a, b)| a.key == b.key && a.takes == b.takes)
        };
        match told_of.iter_mut().find(|(other, _)| same(other)) {
            Some((_, places)) => places.push(holder),
            None => told_of.push((keys, vec![holder])),
        }
    }
    let mut out = String::new();
    for (keys, holders) in told_of {
        let _ = write!(out, "{}", holders.iter().take(PLACES).copied().collect::<Vec<_>>().join(", "));
        if holders.len() > PLACES {
            let _ = write!(out, " and {} more places", holders.len() - PLACES);
        }
        out.push('\n');
        keys.into_iter().for_each(|place| out.push_str(&told(place, width)));
        out.push('\n');
    }
    out
}

fn path(place: &Place) -> String {
    if place.holder.is_empty() { place.key.clone() } else { format!("{}.{}", place.holder, place.key) }
}

fn told(place: &Place, width: usize) -> String {
    let takes = if place.takes.is_empty() { String::new() } else { format!(": {}", place.takes) };
    let mut out = render::fold(&format!("{}{takes}", place.key), 2, width);
    out.push_str(&render::fold(&place.says, 6, width));
    if !place.measure.is_empty() {
        out.push_str(&render::fold(&format!("how to find it out: {}", place.measure), 6, width));
    }
    out
}

/// Every key of a spec, once for each place that it may stand in.
fn places(schema: &Value) -> Vec<Place> {
    let mut walk =
        Walk { definitions: schema.get("$defs").and_then(Value::as_object), open: Vec::new(), places: Vec::new() };
    walk.within(schema, "");
    walk.places
}

struct Walk<'a> {
    definitions: Option<&'a Map<String, Value>>,
    /// Definitions that are being followed: a thing may hold its like.
    open: Vec<&'a str>,
    places: Vec<Place>,
}

const NAME: &str = "#/$defs/";

impl<'a> Walk<'a> {
    fn definition(&self, schema: &'a Value) -> Option<(&'a str, &'a Value)> {
        let name = schema.get("$ref")?.as_str()?.strip_prefix(NAME)?;
        Some((name, self.definitions?.get(name)?))
    }

    fn within(&mut self, schema: &'a Value, holder: &str) {
        if let Some((name, definition)) = self.definition(schema) {
            if !self.open.contains(&name) {
                self.open.push(name);
                self.within(definition, holder);
                self.open.pop();
            }
            return;
        }
        for (key, field) in schema.get("properties").and_then(Value::as_object).into_iter().flatten() {
            // Every thing may be written like another of its kind, and a condition is no field.
            if key == "like" || field.get("const").is_some() {
                continue;
            }
            let known = self.places.iter().any(|place| place.holder == holder && place.key == *key);
            if !known {
                let place = self.place(holder, key, field);
                self.places.push(place);
            }
            let inner = if holder.is_empty() { key.clone() } else { format!("{holder}.{key}") };
            self.within(field, &inner);
        }
        if let Some(entry) = schema.get("additionalProperties").filter(|entry| entry.is_object()) {
            self.within(entry, &format!("{holder}.NAME"));
        }
        if let Some(entry) = schema.get("items") {
            self.within(entry, &format!("{holder}.N"));
        }
        for one in ["then", "else"].into_iter().filter_map(|key| schema.get(key)) {
            self.within(one, holder);
        }
        for all in ["allOf", "anyOf", "oneOf"] {
            schema.get(all).and_then(Value::as_array).into_iter().flatten().for_each(|one| self.within(one, holder));
        }
    }

    fn place(&self, holder: &str, key: &str, field: &'a Value) -> Place {
        let definition = self.definition(field);
        let text = |name: &str| field.get(name).and_then(Value::as_str).unwrap_or("").replace('\n', " ");
        let kind = definition.and_then(|(name, _)| m::named(name));
        let words = field.get("enum").or_else(|| definition.and_then(|(_, schema)| schema.get("enum")));
        let takes = match (kind, words.and_then(Value::as_array)) {
            (Some(kind), _) => {
                let units: Vec<&str> =
                    kind.units.iter().map(|unit| unit.symbol).filter(|unit| !unit.is_empty()).collect();
                let units = if units.len() > 1 { format!(" (in {})", units.join(", ")) } else { String::new() };
                format!("{}{units}", kind.example)
            }
            (None, Some(words)) => words.iter().filter_map(Value::as_str).collect::<Vec<_>>().join(" | "),
            (None, None) => text("refers_to"),
        };
        let own = text("description");
        // What each word means stands at the list of words; a measure's own name says nothing new.
        let of_words = definition.filter(|_| kind.is_none()).and_then(|(_, schema)| schema.get("description"));
        let of_words = of_words.and_then(Value::as_str).unwrap_or("").replace('\n', " ");
        let says = [own, of_words].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ");
        Place { holder: holder.into(), key: key.into(), takes, says, measure: text("how_to_measure") }
    }
}

#[cfg(test)]
mod tests {
    use super::{answer, places, sections};

    fn told(word: &str) -> String {
        answer(&places(&machine::machine_schema()), word, 90).unwrap_or_default()
    }

    #[test]
    fn a_thing_is_told_with_its_keys_their_units_and_how_to_find_them_out() {
        let hose = told("hose");
        for part in ["cooling.hoses.NAME\n", "  bore: ", "mm", "drill shank", "tightest_bend", "working_pressure"] {
            assert!(hose.contains(part), "{part}: {hose}");
        }
        assert!(!hose.contains("holds_meltwater"), "{hose}");
        assert!(told("zones").contains("holds_meltwater"));
    }

    #[test]
    fn a_word_of_the_trade_finds_ours_and_a_part_of_a_word_its_places() {
        assert_eq!(told("gearbox"), told("stages"));
        assert!(told("gearbox").contains("module"));
        assert!(told("humidity").contains("environment.relative_humidity"), "{}", told("humidity"));
        assert!(told("pom").contains("built in: ") && told("pom").contains("(materials)"), "{}", told("pom"));
        assert_eq!(told("no such thing at all"), "");
        assert_eq!(told(" "), "");
    }

    #[test]
    fn every_word_of_the_trade_stands_for_one_of_ours() {
        for (trade, ours) in super::TRADE {
            assert!(!told(ours).is_empty() && told(trade) == told(ours), "{trade}");
        }
    }

    #[test]
    fn every_section_is_listed() {
        let all = sections(&places(&machine::machine_schema()), 90);
        for section in ["environment", "cases", "powertrain", "cooling", "structure", "suspension", "assumed"] {
            assert!(all.lines().any(|line| line.trim_start().starts_with(section)), "{section}: {all}");
        }
    }
}
