//! A number of the spec: its node, and privately its value. Only the [`crate::Reader`] hands the value out.

use document::{GIVEN, NodeId};
use quantity::{Kind, Measure, Misread, Quantity, Stated, Unit, m};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;

/// One written (or absent) number. An absent one has a node id too, so that it can be noted and filled in a what-if.
pub struct Given<M> {
    pub(crate) id: NodeId,
    pub(crate) si: f64,
    plus_minus: f32,
    basis: Option<Stated>,
    unit: Option<&'static Unit>,
    /// `none` is written there.
    pub(crate) none: bool,
    measure: PhantomData<M>,
}

impl<M> Clone for Given<M> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<M> Copy for Given<M> {}

impl<M: Measure> fmt::Debug for Given<M> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The number stays private, even here.
        write!(f, "Given<{}>({})", M::KIND.key, self.id.0)
    }
}

impl<M: Measure> Given<M> {
    #[must_use]
    pub fn id(&self) -> NodeId {
        self.id
    }
    #[must_use]
    pub fn kind(&self) -> &'static Kind {
        M::KIND
    }
    /// The author's own unit; none for a bare number and where nothing is written.
    #[must_use]
    pub fn unit(&self) -> Option<&'static Unit> {
        self.unit
    }
    /// Another number for the same thing, in the author's own unit.
    #[must_use]
    pub fn show(&self, quantity: M::Q) -> String {
        quantity::show(quantity.si(), M::KIND, self.unit)
    }
    /// Whether the spec, a library or the catalogue says it. Structure, not a number: only swaps change it.
    #[must_use]
    pub fn is_given(&self) -> bool {
        !self.si.is_nan()
    }
    /// Half width in SI units as written with `±`, or by the default spread of the stated basis.
    #[must_use]
    pub fn tolerance(&self) -> Option<f64> {
        if self.plus_minus.is_nan() {
            self.basis.map(|basis| self.si.abs() * basis.spread())
        } else {
            Some(f64::from(self.plus_minus))
        }
    }
    /// `(weighed)`, `(measured)`, `(label)`, `(guess)` as the author wrote it.
    #[must_use]
    pub fn stated(&self) -> Option<Stated> {
        self.basis
    }

    fn absent(id: NodeId) -> Self {
        Self { id, si: f64::NAN, plus_minus: f32::NAN, basis: None, unit: None, none: false, measure: PhantomData }
    }

    fn of(id: NodeId, written: &quantity::Written) -> Self {
        #[expect(clippy::cast_possible_truncation, reason = "a tolerance of six digits is plenty")]
        let plus_minus = written.plus_minus.map_or(f32::NAN, |half| half as f32);
        let (si, basis, unit) = (written.si, written.basis, written.unit);
        Self { id, si, plus_minus, basis, unit, none: false, measure: PhantomData }
    }
}

/// A thing that a machine may do without: it can be said that there is none.
fn may_be_none(kind: &Kind) -> bool {
    kind == m::FuseRating::KIND
}

/// The prefix of a refusal that names the measure, for the words that follow later.
pub(crate) const MEASURE: &str = "measure ";
pub(crate) const RANGE: &str = "range ";

fn refuse<E: Error>(prefix: &str, kind: &Kind) -> E {
    E::custom(format_args!("{prefix}{}", kind.key))
}

/// A bare number where the measure takes one: same bounds and same words as for text.
pub(crate) fn bare(number: f64, kind: &'static Kind) -> Result<quantity::Written, Misread> {
    quantity::read_bare(number, kind)
}

struct Parts<M>(PhantomData<M>);

impl<'de, M: Measure> Visitor<'de> for Parts<M> {
    type Value = Given<M>;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(M::KIND.name)
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Given<M>, A::Error> {
        let (id, number, text) = parts(&mut seq)?;
        match (number, text) {
            (_, None) => Ok(Given::absent(id)),
            (None, Some("none")) if may_be_none(M::KIND) => Ok(Given { none: true, ..Given::absent(id) }),
            (Some(number), Some(_)) if M::KIND.bare => {
                bare(number, M::KIND).map(|written| Given::of(id, &written)).map_err(|_| refuse(MEASURE, M::KIND))
            }
            (Some(_), Some(_)) => Err(refuse(MEASURE, M::KIND)),
            (None, Some(text)) => quantity::read(text, M::KIND)
                .map(|written| Given::of(id, &written))
                .map_err(|_| refuse(MEASURE, M::KIND)),
        }
    }
}

pub(crate) fn parts<'de, A: SeqAccess<'de>>(seq: &mut A) -> Result<(NodeId, Option<f64>, Option<&'de str>), A::Error> {
    let lost = || A::Error::custom("a private sequence was cut short");
    let id = NodeId(seq.next_element()?.ok_or_else(lost)?);
    let number = seq.next_element()?.ok_or_else(lost)?;
    let text = seq.next_element()?.ok_or_else(lost)?;
    Ok((id, number, text))
}

impl<'de, M: Measure> Deserialize<'de> for Given<M> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_tuple_struct(GIVEN, 3, Parts(PhantomData))
    }
}

impl<M: Measure> JsonSchema for Given<M> {
    fn schema_name() -> Cow<'static, str> {
        M::KIND.key.into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let kind = M::KIND;
        let mut description = kind.name.to_owned();
        if !kind.note.is_empty() {
            description.push_str(": ");
            description.push_str(kind.note);
        }
        let words = if may_be_none(kind) { "^none$|^unknown$|" } else { "^unknown$|" };
        let mut schema = json_schema!({
            "type": "string",
            "description": description,
            "pattern": format!("{words}{}", quantity::pattern(kind)),
            "examples": [kind.example],
            "measure": kind.key,
        });
        if kind.bare {
            let least = if kind.bounds.above_least { "exclusiveMinimum" } else { "minimum" };
            schema.insert("type".into(), serde_json::json!([if kind.whole { "integer" } else { "number" }, "string"]));
            schema.insert(least.into(), kind.bounds.least.into());
            if kind.bounds.most.is_finite() {
                schema.insert("maximum".into(), kind.bounds.most.into());
            }
        }
        schema
    }
}

/// Two numbers from one text: `-30 °C to 8 °C`. One value alone is both ends.
#[derive(Debug, Clone, Copy)]
pub struct Range<M: Measure> {
    pub low: Given<M>,
    pub high: Given<M>,
}

struct Ends<M>(PhantomData<M>);

impl<'de, M: Measure> Visitor<'de> for Ends<M> {
    type Value = Range<M>;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} or a range of it", M::KIND.name)
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Range<M>, A::Error> {
        let (id, number, text) = parts(&mut seq)?;
        match (number, text) {
            (_, None) => Ok(Range { low: Given::absent(id), high: Given::absent(id.upper()) }),
            (None, Some(text)) => {
                let (low, high) = quantity::read_range(text, M::KIND).map_err(|_| refuse(RANGE, M::KIND))?;
                Ok(Range { low: Given::of(id, &low), high: Given::of(id.upper(), &high) })
            }
            (Some(_), Some(_)) => Err(refuse(RANGE, M::KIND)),
        }
    }
}

impl<'de, M: Measure> Deserialize<'de> for Range<M> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_tuple_struct(GIVEN, 3, Ends(PhantomData))
    }
}

impl<M: Measure> JsonSchema for Range<M> {
    fn schema_name() -> Cow<'static, str> {
        format!("{}_range", M::KIND.key).into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "string",
            "description": format!("{}, or a range of it with ` to ` between the ends", M::KIND.name),
            "pattern": format!("^unknown$|{}", quantity::range_pattern(M::KIND)),
            "examples": [format!("{0} to {0}", M::KIND.example)],
            "measure": M::KIND.key,
            "range": true,
        })
    }
}
