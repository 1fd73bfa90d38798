//! Rust types read from the source map, so that a file is parsed once and each value is what stands there: `1.50` is
//! text, not a number that has lost its nought.

use serde::de::value::{Error, MapDeserializer, SeqDeserializer};
use serde::de::{Deserializer, Error as _, IntoDeserializer, Unexpected, Visitor};
use serde::forward_to_deserialize_any;

use super::check::MissingKeys;
use super::node::{Node, Value};
use super::scalar::{number, truth};
use crate::source::Source;

/// A node with the text that it stands in, which tells `null` from `"null"`.
///
/// Keys that are missing are taken as there and empty, so that what else is wrong with the file is told together with
/// them.
#[derive(Clone, Copy)]
pub(super) struct Typed<'a> {
    node: &'a Node,
    source: &'a Source,
    missing: &'a MissingKeys,
}

/// An empty text and an empty list, which stand nowhere.
static NOTHING: [Node; 2] = [
    Node { span: usize::MAX..usize::MAX, value: Value::Scalar(String::new()) },
    Node { span: usize::MAX..usize::MAX, value: Value::List(Vec::new()) },
];

impl<'a> Typed<'a> {
    pub(super) fn new(node: &'a Node, source: &'a Source, missing: &'a MissingKeys) -> Self {
        Self { node, source, missing }
    }

    /// A scalar without quotes, which may be more than text.
    fn plain(&self) -> Option<&'a str> {
        if self.stands_somewhere() { self.node.plain(self.source) } else { None }
    }

    fn is_nothing(&self) -> bool {
        self.stands_somewhere() && self.node.is_nothing(self.source)
    }

    fn stands_somewhere(&self) -> bool {
        self.node.span.start < usize::MAX
    }
}

impl<'de> Deserializer<'de> for Typed<'_> {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        let inner = |node| Typed { node, ..self };
        match &self.node.value {
            Value::Scalar(_) if self.is_nothing() => visitor.visit_unit(),
            Value::Scalar(text) => visitor.visit_str(text),
            Value::List(items) => visitor.visit_seq(SeqDeserializer::new(items.iter().map(inner))),
            Value::Mapping(entries) => {
                let entries = entries.iter().map(|entry| (entry.key.as_str(), inner(&entry.value)));
                let lacking = self.missing.get(&(self.node.span.start, self.node.span.end)).into_iter().flatten();
                let empty = lacking.map(|lacking| (lacking.key.as_str(), inner(&NOTHING[usize::from(lacking.list)])));
                visitor.visit_map(MapDeserializer::new(entries.chain(empty)))
            }
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        if self.is_nothing() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.plain().and_then(truth) {
            Some(truth) => visitor.visit_bool(truth),
            None => self.deserialize_any(visitor),
        }
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.plain().and_then(number) {
            Some(number) => visitor.visit_f64(number),
            None => self.deserialize_any(visitor),
        }
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.plain().and_then(|text| text.parse().ok()) {
            Some(number) => visitor.visit_u32(number),
            None => self.deserialize_any(visitor),
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        match &self.node.value {
            Value::Scalar(text) => visitor.visit_enum(text.as_str().into_deserializer()),
            _ => self.deserialize_any(visitor),
        }
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        match &self.node.value {
            // Fields are not told by their order.
            Value::List(_) => Err(Error::invalid_type(Unexpected::Seq, &visitor)),
            _ => self.deserialize_any(visitor),
        }
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u8 u16 u64 u128 f32 char str string bytes byte_buf unit unit_struct newtype_struct seq
        tuple tuple_struct map identifier ignored_any
    }
}

impl<'de> IntoDeserializer<'de> for Typed<'_> {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}
