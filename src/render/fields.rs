use tera::{Context, Value};

use super::choice::choice;
use super::scan::{Path, TemplateTag, tags};

/// The fields that a template names, in order, with the loops around them.
#[derive(Debug, Default)]
pub(super) struct Outline {
    events: Vec<Event>,
    calls: Vec<String>,
    components: bool,
}

#[derive(Debug)]
enum Event {
    /// A loop over the elements of a path, or of something that only rendering can tell.
    Enter {
        name: String,
        over: Option<Path>,
    },
    Leave,
    /// A name that the template itself gives a value.
    Hide(String),
    Use(Path),
}

/// A field that a template names and its context does not have.
#[derive(Debug)]
pub(super) struct MissingField {
    pub(super) field: String,
    pub(super) line: usize,
    pub(super) column: usize,
    pub(super) help: Option<String>,
}

impl Outline {
    /// Reads a template's tags; what is not well formed is left for the template language to report.
    pub(super) fn of(source: &str) -> Self {
        let mut outline = Self::default();
        let mut in_component = false;
        for tag in tags(source) {
            outline.calls.extend(tag.calls());
            match tag.keyword() {
                Some("component") => (in_component, outline.components) = (true, true),
                Some("endcomponent") => in_component = false,
                // A component sees its arguments alone, and only rendering can tell what they are.
                _ if in_component => {}
                _ => outline.add(&tag),
            }
        }
        outline
    }

    /// Names of the templates that this one includes or extends.
    pub(super) fn calls(&self) -> impl Iterator<Item = &str> {
        self.calls.iter().map(String::as_str)
    }

    /// Whether the template defines components, which any other may use by their names.
    pub(super) fn has_components(&self) -> bool {
        self.components
    }

    fn add(&mut self, tag: &TemplateTag<'_>) {
        let inner = tag.inner_names();
        let paths = tag.paths().into_iter().filter(|path| !inner.contains(&path.root));
        self.events.extend(paths.map(Event::Use));
        match tag.keyword() {
            Some("for") => {
                let (name, over) = tag.loop_over();
                self.events.push(Event::Enter { name, over });
            }
            Some("endfor") => self.events.push(Event::Leave),
            Some("set" | "set_global") => self.events.extend(tag.set_name().map(Event::Hide)),
            _ => {}
        }
    }

    /// Looks every named field up in a context.
    ///
    /// Where a value is missing from the recipe at hand, or a list is empty, there is nothing to look up.
    ///
    /// # Errors
    /// The first field that a struct or map of the context does not have.
    pub(super) fn check(&self, context: &Context) -> Result<(), MissingField> {
        let mut scope: Vec<(&str, Option<&Value>)> = Vec::new();
        let mut depth: Vec<usize> = Vec::new();
        for event in &self.events {
            match event {
                Event::Enter { name, over } => {
                    let list = over.as_ref().and_then(|path| resolve(path, &scope, context).ok().flatten());
                    let first = list.and_then(Value::as_array).and_then(<[Value]>::first);
                    depth.push(scope.len());
                    scope.push((name, first));
                }
                Event::Leave => scope.truncate(depth.pop().unwrap_or(0)),
                Event::Hide(name) => scope.push((name, None)),
                Event::Use(path) => {
                    resolve(path, &scope, context)?;
                }
            }
        }
        Ok(())
    }
}

/// The value at a path; `None` where it cannot be known.
fn resolve<'a>(
    path: &Path,
    scope: &[(&str, Option<&'a Value>)],
    context: &'a Context,
) -> Result<Option<&'a Value>, MissingField> {
    let hidden = scope.iter().rev().find(|(name, _)| *name == path.root);
    let Some(mut value) = hidden.map_or_else(|| context.get(&path.root), |(_, value)| *value) else { return Ok(None) };
    for field in &path.fields {
        let Some(map) = value.as_map() else { return Ok(None) };
        let found = map.iter().find(|(key, _)| key.as_str() == Some(&field.name)).map(|(_, value)| value);
        value = found.ok_or_else(|| MissingField {
            field: field.name.clone(),
            line: field.line,
            column: field.column,
            help: Some(choice(&field.name, map.keys().filter_map(|key| key.as_str()))),
        })?;
    }
    Ok(Some(value))
}
