//! Closed lists of words: read from plain text, refused with the nearest spelling, printed back as written.

/// `words! { /// doc  pub enum Name { /// doc  Variant = "word", … } }`
macro_rules! words {
    ($(#[$doc:meta])* pub enum $name:ident { $($(#[doc = $note:literal])* $variant:ident = $word:literal),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name { $($(#[doc = $note])* $variant),* }

        impl $name {
            pub const WORDS: &'static [&'static str] = &[$($word),*];
            /// As it is written in a spec.
            #[must_use]
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),* }
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Word;
                impl serde::de::Visitor<'_> for Word {
                    type Value = $name;
                    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                        f.write_str("a word")
                    }
                    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<$name, E> {
                        match text {
                            $($word => Ok($name::$variant),)*
                            other => Err(E::unknown_variant(other, $name::WORDS)),
                        }
                    }
                }
                deserializer.deserialize_enum(document::WORD, $name::WORDS, Word)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.word())
            }
        }

        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                let notes: &[(&str, &str)] = &[$(($word, concat!("" $(, $note)*))),*];
                let notes: Vec<String> = notes.iter().filter(|note| !note.1.is_empty()).map(|note| format!("{}:{}", note.0, note.1)).collect();
                let mut schema = schemars::json_schema!({ "type": "string", "enum": Self::WORDS });
                if !notes.is_empty() {
                    schema.insert("description".into(), notes.join("; ").into());
                }
                schema
            }
        }
    };
}
