use schemars::Schema;

use super::node::{Node, Value};
use super::shape::Shape;
use crate::source::{Finding, Span};

/// What files of a kind hold, and what to call them.
#[derive(Debug)]
pub struct Format {
    name: &'static str,
    shape: Shape,
    start: &'static str,
    empty: Option<&'static str>,
}

impl Format {
    /// Of the types that a JSON Schema was made of. `name` has its article, as in `a recipe`; `start` says how such a
    /// file begins.
    pub fn new(schema: &Schema, name: &'static str, start: &'static str) -> Self {
        Self { name, shape: Shape::of(schema.as_value()), start, empty: None }
    }

    /// The same, for files that may not be empty; says how they begin.
    #[must_use]
    pub fn filled(mut self, help: &'static str) -> Self {
        self.empty = Some(help);
        self
    }

    /// What one is called, with its article.
    pub fn name(&self) -> &'static str {
        self.name
    }

    pub(super) fn shape(&self) -> &Shape {
        &self.shape
    }

    pub(super) fn start(&self) -> &'static str {
        self.start
    }

    /// Whether any place of such a file has a key of the name.
    pub(super) fn is_key(&self, name: &str) -> bool {
        self.shape.has_key(name)
    }

    /// What stands in for an empty file.
    ///
    /// # Errors
    /// A finding, where a file must hold something.
    pub(super) fn nothing(&self, span: Span) -> Result<Node, Box<Finding>> {
        match self.empty {
            Some(help) => Err(Box::new(
                Finding::error("empty-file", span, format!("the file holds no {}", self.noun())).help(help),
            )),
            None if self.shape.list.is_some() => Ok(Node { span, value: Value::List(Vec::new()) }),
            None => Ok(Node { span, value: Value::Mapping(Vec::new()) }),
        }
    }

    fn noun(&self) -> &'static str {
        self.name.split_once(' ').map_or(self.name, |(_, noun)| noun)
    }
}
