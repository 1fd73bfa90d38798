use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde::Serialize;
use sha2::{Digest, Sha256};
use tera::{Context, ErrorKind, Tera, Value};

use super::builtin::BUILTIN;
use super::choice::{choice, did_you_mean};
use super::error::TemplateError;
use super::fields::Outline;
use super::filters;
use super::overrides::read_overrides;
use crate::language::Language;
use crate::source::Gate;
use crate::text::write_escaped;

/// All templates, ready to render: the built-in ones, and in their place or beside them the workspace's.
#[derive(Debug)]
pub struct Environment {
    tera: Tera,
    language: Arc<Language>,
    /// Files of the workspace's templates by template name, for messages.
    files: BTreeMap<String, PathBuf>,
    /// The fields that each template names.
    outlines: BTreeMap<String, Outline>,
    /// Of each template and all that it may call; see [`Environment::fingerprint`].
    fingerprints: BTreeMap<String, [u8; 32]>,
}

impl Environment {
    /// Reads the templates in `folder`, if there is such a folder, through a gate, and the built-in ones; they speak
    /// one language.
    ///
    /// # Errors
    /// When a template cannot be read, is not well formed or is used by nothing.
    pub fn new(folder: Option<&Path>, gate: &Gate, language: &Language) -> Result<Self, TemplateError> {
        let language = Arc::new(language.clone());
        let own = folder.map(|folder| read_overrides(folder, gate)).transpose()?.unwrap_or_default();
        let files: BTreeMap<String, PathBuf> =
            folder.map(|folder| own.keys().map(|name| (name.clone(), folder.join(name))).collect()).unwrap_or_default();
        let builtin = BUILTIN.iter().map(|(name, source)| (*name, *source));
        // Later ones take the place of earlier ones of the same name.
        let sources: BTreeMap<&str, &str> = builtin.chain(own.iter().map(|(n, s)| (n.as_str(), s.as_str()))).collect();
        let mut tera = Tera::new();
        tera.autoescape_on([".html", ".xml"]);
        tera.set_escape_fn(write_escaped);
        filters::register(&mut tera, &language);
        let outlines = sources.iter().map(|(name, source)| ((*name).to_owned(), Outline::of(source))).collect();
        let fingerprints = fingerprints(&sources, &outlines, &language);
        let mut environment = Self { tera, language, files, outlines, fingerprints };
        environment.refuse_unused(&own)?;
        // Together, because templates may include and extend one another.
        let added = environment.tera.add_raw_templates(sources);
        added.map_err(|error| environment.template_error("templates", &error))?;
        Ok(environment)
    }

    /// The text that a template makes of a context, which must be a struct or map.
    ///
    /// # Errors
    /// When there is no such template, or it names a field that is not there or not of the right kind.
    pub fn render(&self, name: &str, context: &impl Serialize) -> Result<String, TemplateError> {
        let context = Context::from_serialize(context).map_err(|error| self.template_error(name, &error))?;
        self.render_context(name, &context)
    }

    /// [`Environment::render`] for a context that was put together piece by piece.
    ///
    /// # Errors
    /// As [`Environment::render`].
    pub fn render_context(&self, name: &str, context: &Context) -> Result<String, TemplateError> {
        self.check_fields(name, context)?;
        self.tera.render(name, context).map_err(|error| self.template_error(name, &error))
    }

    /// The language that the templates speak.
    pub fn language(&self) -> &Language {
        &self.language
    }

    /// A SHA-256 that changes when the language or the template does, or any that it extends or includes, or any with components.
    ///
    /// Empty where there is no such template.
    pub fn fingerprint(&self, name: &str) -> &[u8] {
        self.fingerprints.get(name).map_or(&[], |hash| hash)
    }

    /// The plain words that a component of `words.txt` makes of one value.
    ///
    /// # Errors
    /// When there is no such component, or it names a field that is not there.
    pub(super) fn words(&self, component: &str, name: &'static str, value: &Value) -> Result<String, TemplateError> {
        let mut context = Context::new();
        context.insert_value(name, value.clone());
        let words = self.tera.render_component(component, &context, None, false);
        words.map_err(|error| self.template_error("words.txt", &error))
    }

    /// The template language takes an unknown field in a condition for "no"; a misspelt one would go unseen.
    fn check_fields(&self, name: &str, context: &Context) -> Result<(), TemplateError> {
        let mut waiting = vec![name];
        let mut seen: Vec<&str> = Vec::new();
        while let Some(name) = waiting.pop() {
            let Some((name, outline)) = self.outlines.get_key_value(name) else { continue };
            if seen.contains(&name.as_str()) {
                continue;
            }
            seen.push(name);
            outline.check(context).map_err(|missing| TemplateError {
                file: self.shown_name(name),
                line: missing.line,
                column: missing.column,
                message: format!("Field `{}` is not defined", missing.field),
                help: missing.help,
            })?;
            waiting.extend(outline.calls());
        }
        Ok(())
    }

    /// A file that no built-in name and no other template of the workspace calls for is most likely misspelt.
    fn refuse_unused(&self, own: &BTreeMap<String, String>) -> Result<(), TemplateError> {
        for name in own.keys() {
            let builtin = BUILTIN.iter().any(|(known, _)| known == name);
            let called = self.outlines.values().any(|other| other.calls().any(|call| call == name));
            if builtin || called || self.outlines.get(name).is_some_and(Outline::has_components) {
                continue;
            }
            let help = did_you_mean(name, BUILTIN.iter().map(|(known, _)| *known));
            let message = format!("nothing uses a template named `{name}`");
            return Err(TemplateError::whole(self.shown_name(name), message, help));
        }
        Ok(())
    }

    fn shown_name(&self, template: &str) -> String {
        match self.files.get(template) {
            Some(path) => path.display().to_string(),
            None => format!("built-in template {template}"),
        }
    }

    fn template_error(&self, name: &str, error: &tera::Error) -> TemplateError {
        match error.kind() {
            ErrorKind::SyntaxError(report) | ErrorKind::RenderingError(report) => {
                let (message, help) = message_and_help(report.message());
                TemplateError {
                    file: self.shown_name(report.filename()),
                    line: report.span().start_line,
                    column: report.span().start_col + 1,
                    message,
                    help,
                }
            }
            ErrorKind::TemplateNotFound(missing) => {
                let help = did_you_mean(missing, self.tera.get_template_names());
                TemplateError::whole(self.shown_name(name), format!("there is no template `{missing}`"), help)
            }
            ErrorKind::MissingParent { current, parent } => {
                let help = did_you_mean(parent, self.tera.get_template_names());
                TemplateError::whole(self.shown_name(current), format!("extends `{parent}`, which is not there"), help)
            }
            other => {
                let text = other.to_string();
                self.reported(&text).unwrap_or_else(|| TemplateError::whole(self.shown_name(name), text, None))
            }
        }
    }

    /// Reads the first of several faults, which the template language reports as a drawing alone:
    /// `error: Unknown filter` with the name, and on the next line `--> card.md:1:19`.
    fn reported(&self, drawing: &str) -> Option<TemplateError> {
        let mut lines = drawing.lines();
        let message = lines.next()?.strip_prefix("error: ")?;
        let mut place = lines.next()?.trim_start().strip_prefix("--> ")?.rsplitn(3, ':');
        let column = place.next()?.parse().ok()?;
        let line = place.next()?.parse().ok()?;
        Some(TemplateError {
            file: self.shown_name(place.next()?),
            line,
            column,
            message: message.to_owned(),
            help: None,
        })
    }
}

/// A value as templates see it, made once where several need it.
///
/// # Errors
/// When it cannot be written down, as a map whose keys are no text.
pub fn shown(value: &impl Serialize) -> Result<Value, TemplateError> {
    Value::try_from_serializable(value).map_err(|error| TemplateError::whole("a value", error.to_string(), None))
}

fn fingerprints(
    sources: &BTreeMap<&str, &str>,
    outlines: &BTreeMap<String, Outline>,
    language: &Language,
) -> BTreeMap<String, [u8; 32]> {
    let language = Sha256::digest(format!("{language:?}"));
    // Components are called by their own names, so every template may depend on every one that has some.
    let shared = || outlines.iter().filter(|(_, outline)| outline.has_components()).map(|(name, _)| name.as_str());
    let of = |name: &str| {
        let mut waiting: Vec<&str> = shared().collect();
        waiting.push(name);
        let mut called = BTreeSet::new();
        while let Some(name) = waiting.pop() {
            if called.insert(name.to_owned()) {
                waiting.extend(outlines.get(name).into_iter().flat_map(Outline::calls));
            }
        }
        let mut hasher = Sha256::new();
        hasher.update(language);
        for name in &called {
            let source = sources.get(name.as_str()).copied().unwrap_or_default();
            hasher.update(format!("{name} {}\n{source}", source.len()));
        }
        hasher.finalize().into()
    };
    outlines.keys().map(|name| (name.clone(), of(name))).collect()
}

/// Splits the template language's list of what there is from what is wrong, and names the nearest.
fn message_and_help(message: &str) -> (String, Option<String>) {
    for list in [" Available fields: ", " Available variables: "] {
        let Some((wrong, available)) = message.split_once(list) else { continue };
        let asked = wrong.split('`').nth(1).unwrap_or_default();
        return (wrong.trim_end_matches('.').to_owned(), Some(choice(asked, available.split(", "))));
    }
    (message.to_owned(), None)
}
