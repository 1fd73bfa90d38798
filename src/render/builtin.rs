/// The templates built into the program, by name: the files of `templates/`, listed when the program is built.
pub(super) const BUILTIN: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/templates.rs"));

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::BUILTIN;
    use crate::render::overrides::read_overrides;

    /// What a workspace's folder would be read as.
    #[test]
    fn every_template_is_built_in() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
        let files = read_overrides(&folder, &crate::source::Gate::anywhere()).expect("the templates can be read");
        let names: Vec<&str> = BUILTIN.iter().map(|(name, _)| *name).collect();
        assert_eq!(files.keys().collect::<Vec<_>>(), names);
    }

    #[test]
    fn every_template_is_in_the_reference() {
        let reference = include_str!("../../templates/README.md");
        let lacking = BUILTIN.iter().filter(|(name, _)| !reference.contains(&format!("| `{name}` | ")));
        let lacking: Vec<&str> = lacking.map(|(name, _)| *name).collect();
        assert!(lacking.is_empty(), "the table of templates/README.md needs a row of each of {}", lacking.join(", "));
    }
}
