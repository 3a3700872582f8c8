//! Built-in entries as YAML text by key. It never knows: types, units.

/// All built-in entries. Only the assumed figures stand here so far.
#[derive(Debug, Clone, Copy)]
pub struct Catalogue;

impl document::Shelf for Catalogue {
    fn entry(&self, key: &str) -> Option<(&'static str, &'static str, &'static str)> {
        (key == "assumed").then_some(("", "assumed.yaml", include_str!("../entries/assumed.yaml")))
    }
    fn always(&self) -> &'static [&'static str] {
        &["assumed"]
    }
}
