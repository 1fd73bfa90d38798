/// The templates built into the program, by name, in the order of `templates/README.md`.
pub(super) const BUILTIN: &[(&str, &str)] = &[
    ("description.txt", include_str!("../../templates/description.txt")),
    ("post.md", include_str!("../../templates/post.md")),
    ("post.html", include_str!("../../templates/post.html")),
    ("card.md", include_str!("../../templates/card.md")),
    ("bench-card.md", include_str!("../../templates/bench-card.md")),
    ("words.txt", include_str!("../../templates/words.txt")),
    ("archive/base.html", include_str!("../../templates/archive/base.html")),
    ("archive/parts.html", include_str!("../../templates/archive/parts.html")),
    ("archive/home.html", include_str!("../../templates/archive/home.html")),
    ("archive/recipe.html", include_str!("../../templates/archive/recipe.html")),
    ("archive/component.html", include_str!("../../templates/archive/component.html")),
    ("archive/tags.html", include_str!("../../templates/archive/tags.html")),
    ("archive/tag.html", include_str!("../../templates/archive/tag.html")),
    ("archive/ingredients.html", include_str!("../../templates/archive/ingredients.html")),
    ("archive/components.html", include_str!("../../templates/archive/components.html")),
    ("archive/users.html", include_str!("../../templates/archive/users.html")),
    ("archive/all.html", include_str!("../../templates/archive/all.html")),
    ("archive/titles.html", include_str!("../../templates/archive/titles.html")),
    ("archive/corrections.html", include_str!("../../templates/archive/corrections.html")),
    ("archive/writing.html", include_str!("../../templates/archive/writing.html")),
    ("archive/moved.html", include_str!("../../templates/archive/moved.html")),
    ("archive/search.html", include_str!("../../templates/archive/search.html")),
    ("archive/404.html", include_str!("../../templates/archive/404.html")),
    ("archive/feed.xml", include_str!("../../templates/archive/feed.xml")),
    ("archive/sitemap.xml", include_str!("../../templates/archive/sitemap.xml")),
    ("archive/sitemap-index.xml", include_str!("../../templates/archive/sitemap-index.xml")),
];

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::BUILTIN;
    use crate::render::overrides::read_overrides;

    #[test]
    fn every_template_is_built_in_and_in_the_reference() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
        let files = read_overrides(&folder, &crate::source::Gate::anywhere()).expect("the templates can be read");
        let mut names: Vec<&str> = BUILTIN.iter().map(|(name, _)| *name).collect();
        names.sort_unstable();
        assert_eq!(files.keys().collect::<Vec<_>>(), names);
        let reference = include_str!("../../templates/README.md");
        for name in names {
            assert!(reference.contains(&format!("| `{name}` | ")), "{name}");
        }
    }
}
