use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde::Serialize;
use tera::{Context, ErrorKind, Tera};

use super::builtin::BUILTIN;
use super::error::TemplateError;
use super::overrides::read_overrides;
use super::{filters, text};

/// All templates, ready to render: the built-in ones, and in their place or beside them the workspace's.
#[derive(Debug)]
pub struct Environment {
    tera: Tera,
    /// Files of the workspace's templates by template name, for messages.
    files: BTreeMap<String, PathBuf>,
}

impl Environment {
    /// Reads the templates in `folder`, if there is such a folder, and the built-in ones.
    ///
    /// # Errors
    /// When a template cannot be read, is not well formed or is used by nothing.
    pub fn new(folder: Option<&Path>) -> Result<Self, TemplateError> {
        let own = folder.map(read_overrides).transpose()?.unwrap_or_default();
        let files: BTreeMap<String, PathBuf> =
            folder.map(|folder| own.keys().map(|name| (name.clone(), folder.join(name))).collect()).unwrap_or_default();
        let mut tera = Tera::new();
        tera.autoescape_on([".html", ".xml"]);
        tera.set_escape_fn(text::write_escaped);
        filters::register(&mut tera);
        let mut environment = Self { tera, files };
        environment.refuse_unused(&own)?;
        let builtin = BUILTIN.iter().filter(|(name, _)| !own.contains_key(*name));
        let sources = builtin.map(|(name, source)| (*name, *source));
        let sources: Vec<(&str, &str)> = sources.chain(own.iter().map(|(n, s)| (n.as_str(), s.as_str()))).collect();
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
        self.tera.render(name, &context).map_err(|error| self.template_error(name, &error))
    }

    /// A file that no built-in name and no other template of the workspace calls for is most likely misspelt.
    fn refuse_unused(&self, own: &BTreeMap<String, String>) -> Result<(), TemplateError> {
        for (name, source) in own {
            let builtin = BUILTIN.iter().any(|(known, _)| known == name);
            let called = own
                .values()
                .any(|other| [format!("\"{name}\""), format!("'{name}'")].iter().any(|call| other.contains(call)));
            // A file of components is used by the components' names.
            if builtin || called || source.contains("component") {
                continue;
            }
            let names = BUILTIN.iter().map(|(known, _)| *known);
            let help = nearest(name, names).map(|near| format!("did you mean `{near}`?"));
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
                let help =
                    nearest(missing, self.tera.get_template_names()).map(|near| format!("did you mean `{near}`?"));
                TemplateError::whole(self.shown_name(name), format!("there is no template `{missing}`"), help)
            }
            ErrorKind::MissingParent { current, parent } => {
                let help =
                    nearest(parent, self.tera.get_template_names()).map(|near| format!("did you mean `{near}`?"));
                TemplateError::whole(self.shown_name(current), format!("extends `{parent}`, which is not there"), help)
            }
            other => TemplateError::whole(self.shown_name(name), other.to_string(), None),
        }
    }
}

/// Splits the template language's list of what there is from what is wrong, and names the nearest.
fn message_and_help(message: &str) -> (String, Option<String>) {
    for list in [" Available fields: ", " Available variables: "] {
        let Some((wrong, available)) = message.split_once(list) else { continue };
        let asked = wrong.split('`').nth(1).unwrap_or_default();
        let near = nearest(asked, available.split(", "));
        let help = near.map_or_else(|| format!("there are: {available}"), |near| format!("did you mean `{near}`?"));
        return (wrong.trim_end_matches('.').to_owned(), Some(help));
    }
    (message.to_owned(), None)
}

/// The name most like `asked`, if one is at all like it.
pub(super) fn nearest<'a>(asked: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let likeness = |name: &str| strsim::jaro_winkler(asked, name);
    // From the last to the first, so that the first of equals is taken whatever order the names come in.
    let mut names: Vec<&str> = names.into_iter().collect();
    names.sort_unstable_by(|one, other| other.cmp(one));
    let nearest = names.into_iter().max_by(|one, other| likeness(one).total_cmp(&likeness(other)))?;
    (likeness(nearest) > 0.8).then_some(nearest)
}
