//! A required reserve: a bare number where capacity is divided by demand, a difference with its unit where the one is
//! taken from the other.

use document::{NodeId, RESERVE};
use quantity::{Kind, Written, m};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::fmt;

/// A required reserve and its node.
#[derive(Debug, Clone, PartialEq)]
pub struct Reserve {
    pub id: NodeId,
    amount: Amount,
}

#[derive(Debug, Clone, PartialEq)]
enum Amount {
    Ratio(f64),
    /// In SI, by each measure that can be written so: `20 kPa` is a pressure, a loss of pressure, a stress.
    Gap(Vec<(&'static Kind, f64)>),
}

impl Reserve {
    /// What it requires of capacity over demand; none where it is a difference.
    #[must_use]
    pub fn ratio(&self) -> Option<f64> {
        match self.amount {
            Amount::Ratio(ratio) => Some(ratio),
            Amount::Gap(_) => None,
        }
    }

    /// What it requires of a difference of this kind, in SI.
    #[must_use]
    pub fn gap(&self, kind: &Kind) -> Option<f64> {
        match &self.amount {
            Amount::Ratio(_) => None,
            Amount::Gap(kinds) => kinds.iter().find(|(known, _)| *known == kind).map(|(_, si)| *si),
        }
    }

    /// Both could be asked of one margin.
    #[must_use]
    pub fn is_like(&self, other: &Self) -> bool {
        match (&self.amount, &other.amount) {
            (Amount::Ratio(_), Amount::Ratio(_)) => true,
            (Amount::Gap(mine), Amount::Gap(_)) => mine.iter().any(|(kind, _)| other.gap(kind).is_some()),
            _ => false,
        }
    }
}

/// What is wrong, and the way out.
pub(crate) type Misread = (String, &'static str);

/// What is wrong with a text that should say a required reserve.
pub(crate) fn misread(number: Option<f64>, text: &str) -> Option<Misread> {
    amount(number, text).err()
}

fn amount(number: Option<f64>, text: &str) -> Result<Amount, Misread> {
    if let Some(ratio) = number.or_else(|| text.trim().parse().ok()) {
        return match ratio {
            enough if enough.is_finite() && enough >= 1.0 => Ok(Amount::Ratio(enough)),
            some if some > 0.0 && some < 1.0 => Err((
                format!(
                    "a required reserve of `{text}` would take what breaks: at 1 it bears just what it is asked to bear"
                ),
                "write 1 or more; a concession in the spec accepts one finding, with a reason and an end",
            )),
            _ => Err((
                format!("`{text}` is no reserve that could be required"),
                "write how many times the demand it must bear, such as `1.5`",
            )),
        };
    }
    // Of what would 15 % be left?
    let share = |written: &Written| written.unit.is_some_and(|unit| unit.symbol.contains('%'));
    let read = |kind: &&'static Kind| {
        quantity::read(text, kind).ok().filter(|written| !share(written)).map(|written| (*kind, written))
    };
    // A reading of a thermometer is no difference.
    let written =
        m::ALL.iter().filter(|kind| !kind.bare && kind.units.iter().all(|unit| unit.offset == 0.0)).filter_map(read);
    let written: Vec<(&'static Kind, Written)> = written.collect();
    if written.is_empty() {
        let scale = m::ALL.iter().find(|kind| kind.units.iter().any(|unit| unit.offset != 0.0));
        let reading = scale.is_some_and(|kind| quantity::read(text, kind).is_ok());
        let help = if reading { "a reserve is a difference: write it in K, such as `8 K`" } else { SHAPES };
        return Err((format!("`{text}` is not read as a reserve"), help));
    }
    if written.iter().any(|(_, one)| one.plus_minus.is_some() || one.basis.is_some()) {
        return Err((
            format!("`{text}` has a tolerance or a basis; a requirement is exact"),
            "write the number and its unit alone",
        ));
    }
    if written.iter().any(|(_, one)| one.si <= 0.0) {
        return Err((format!("`{text}` is no reserve that could be required: it must be above zero"), SHAPES));
    }
    Ok(Amount::Gap(written.into_iter().map(|(kind, one)| (kind, one.si)).collect()))
}

const SHAPES: &str =
    "write `1.5` for how many times the demand it must bear, or a difference such as `8 K`, `20 kPa` or `3 mm`";

impl<'de> Deserialize<'de> for Reserve {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Parts;
        impl<'de> Visitor<'de> for Parts {
            type Value = Reserve;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a reserve")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Reserve, A::Error> {
                let lost = || A::Error::custom("a private sequence was cut short");
                let id = NodeId(seq.next_element()?.ok_or_else(lost)?);
                let number: Option<f64> = seq.next_element()?.ok_or_else(lost)?;
                let text: Option<&str> = seq.next_element()?.ok_or_else(lost)?;
                // What is misread keeps the workshop from being used; until then anything may stand here.
                let amount = amount(number, text.unwrap_or_default()).unwrap_or(Amount::Ratio(1.0));
                Ok(Reserve { id, amount })
            }
        }
        deserializer.deserialize_tuple_struct(RESERVE, 3, Parts)
    }
}

impl JsonSchema for Reserve {
    fn schema_name() -> Cow<'static, str> {
        "reserve".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["number", "string"],
            "description": "a bare number is how many times the demand it must bear; a difference with its unit is what must be left",
            "minimum": 1,
            "examples": [2, "8 K", "20 kPa"],
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Measure;

    fn gap<M: Measure>(text: &str) -> Option<f64> {
        let amount = amount(None, text).ok()?;
        Reserve { id: NodeId::NOWHERE, amount }.gap(M::KIND)
    }

    #[test]
    fn a_bare_number_is_a_ratio_and_a_unit_makes_a_difference() {
        assert_eq!(amount(Some(2.0), "2"), Ok(Amount::Ratio(2.0)));
        assert_eq!(amount(None, "1.5"), Ok(Amount::Ratio(1.5)), "in quotes");
        assert_eq!(gap::<m::TemperatureDifference>("8 K"), Some(8.0));
        assert_eq!(gap::<m::PressureLoss>("20 kPa"), Some(20e3));
        assert_eq!(gap::<m::Pressure>("20 kPa"), Some(20e3));
        assert_eq!(gap::<m::Distance>("20 kPa"), None);
    }

    #[test]
    fn what_takes_what_breaks_is_refused() {
        for text in [
            "0",
            "-1",
            "0.99",
            "inf",
            "NaN",
            "1e999",
            "0 K",
            "-3 K",
            "8",
            "15 %",
            "8 °C",
            "8 K ± 1 K",
            "8 K (guess)",
            "8 Kelvinz",
            "",
        ] {
            let number = text.parse().ok();
            assert_eq!(amount(number, text).is_ok(), text == "8", "{text}");
        }
        assert!(amount(None, "8 °C").unwrap_err().1.contains("in K"));
    }
}
