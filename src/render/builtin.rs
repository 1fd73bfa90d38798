/// The templates built into the program, by name, in the order of `templates/README.md`.
pub(super) const BUILTIN: &[(&str, &str)] = &[
    ("description.txt", include_str!("../../templates/description.txt")),
    ("post.md", include_str!("../../templates/post.md")),
    ("post.html", include_str!("../../templates/post.html")),
    ("card.md", include_str!("../../templates/card.md")),
    ("words.txt", include_str!("../../templates/words.txt")),
];
