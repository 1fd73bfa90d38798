use tera::Tera;

const TEMPLATES: [(&str, &str); 13] = [
    ("archive/base.html", include_str!("../../templates/archive/base.html")),
    ("archive/parts.html", include_str!("../../templates/archive/parts.html")),
    ("archive/home.html", include_str!("../../templates/archive/home.html")),
    ("archive/recipe.html", include_str!("../../templates/archive/recipe.html")),
    ("archive/component.html", include_str!("../../templates/archive/component.html")),
    ("archive/tags.html", include_str!("../../templates/archive/tags.html")),
    ("archive/tag.html", include_str!("../../templates/archive/tag.html")),
    ("archive/all.html", include_str!("../../templates/archive/all.html")),
    ("archive/corrections.html", include_str!("../../templates/archive/corrections.html")),
    ("archive/writing.html", include_str!("../../templates/archive/writing.html")),
    ("archive/404.html", include_str!("../../templates/archive/404.html")),
    ("archive/feed.xml", include_str!("../../templates/archive/feed.xml")),
    ("archive/sitemap.xml", include_str!("../../templates/archive/sitemap.xml")),
];

/// The archive's templates, embedded.
pub(super) fn environment() -> Result<Tera, tera::Error> {
    let mut tera = Tera::default();
    tera.add_raw_templates(TEMPLATES)?;
    Ok(tera)
}
