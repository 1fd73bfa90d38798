use super::colour::{BLACK, Colour, WHITE};
use crate::workspace::Site;

/// The style sheet's parts, in the order of the cascade.
const STYLE: &str = concat!(
    include_str!("../../site/style/names.css"),
    "\n",
    include_str!("../../site/style/text.css"),
    "\n",
    include_str!("../../site/style/page.css"),
    "\n",
    include_str!("../../site/style/lists.css"),
    "\n",
    include_str!("../../site/style/opening.css"),
    "\n",
    include_str!("../../site/style/switches.css"),
    "\n",
    include_str!("../../site/style/method.css"),
    "\n",
    include_str!("../../site/style/bench.css"),
    "\n",
    include_str!("../../site/style/after.css"),
    "\n",
    include_str!("../../site/style/wide.css"),
    "\n",
    include_str!("../../site/style/print.css"),
    "\n",
);
const SCRIPT: &str = include_str!("../../site/script.js");
const SEARCH: &str = include_str!("../../site/search.js");
const ICON: &str = include_str!("../../site/icon.svg");

/// Grounds of the style sheet, light and dark, that the accent must be read on: `--wash` of each.
const LIGHT: Colour = Colour::new(0xea, 0xf0, 0xf0);
const DARK: Colour = Colour::new(0x1c, 0x28, 0x2e);

/// Where the accent is no colour.
const ACCENT: Colour = Colour::new(0x1f, 0x3a, 0x4d);

/// Least contrast of text. Source: WCAG 2.2, success criterion 1.4.3.
const LEAST_CONTRAST: f64 = 4.5;

/// On a dark ground, where a colour lifted only so far is dull. Source: WCAG 2.2, success criterion 1.4.6.
const LEAST_CONTRAST_IN_THE_DARK: f64 = 7.0;

/// Style sheet, scripts and icon, with the accent of the site.
pub(super) fn files(site: &Site) -> [(&'static str, Vec<u8>); 4] {
    let accent = Colour::parse(&site.accent).unwrap_or(ACCENT);
    let light = accent.readable_on(LIGHT, BLACK, LEAST_CONTRAST).hex();
    let dark = accent.readable_on(DARK, WHITE, LEAST_CONTRAST_IN_THE_DARK).hex();
    let accents = format!(
        ":root {{ --accent: {light}; }}\n@media screen and (prefers-color-scheme: dark) {{ :root {{ --accent: {dark}; }} }}\n"
    );
    let icon = ICON.replace("#1f3a4d", &light);
    [
        ("style.css", format!("{STYLE}{accents}").into_bytes()),
        ("script.js", SCRIPT.as_bytes().to_vec()),
        ("search.js", SEARCH.as_bytes().to_vec()),
        ("icon.svg", icon.into_bytes()),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::archive::cover::{EDGE, PALE_EDGE};

    #[test]
    fn the_grounds_are_those_of_the_style_sheet() {
        for ground in [LIGHT, DARK] {
            assert!(STYLE.contains(&format!("--wash: {};", ground.hex())), "{}", ground.hex());
        }
    }

    #[test]
    fn the_edges_are_those_of_the_style_sheet() {
        assert_eq!(named("edge")[0], EDGE);
        assert_eq!(named("pale-edge")[0], PALE_EDGE);
    }

    /// The value of a colour in the style sheet: light, then dark.
    fn named(name: &str) -> [Colour; 2] {
        let opening = format!("--{name}: ");
        let values = STYLE.split(opening.as_str()).skip(1).filter_map(|rest| Colour::parse(rest.split(';').next()?));
        values.collect::<Vec<_>>().try_into().unwrap_or_else(|_| panic!("--{name} is set twice, light and dark"))
    }

    #[test]
    fn text_is_readable_light_and_dark() {
        for ground in ["paper", "wash"] {
            for text in ["ink", "soft", "mind"] {
                for (ground, text) in named(ground).into_iter().zip(named(text)) {
                    assert!(text.contrast(ground) >= LEAST_CONTRAST, "{} on {}", text.hex(), ground.hex());
                }
            }
        }
    }

    #[test]
    fn the_scripts_stay_small() {
        assert!(SCRIPT.len() + SEARCH.len() <= 15 * 1024);
    }

    #[test]
    fn an_accent_that_is_no_colour_changes_nothing() {
        let style = |accent: &str| files(&Site { accent: accent.into(), ..Site::default() })[0].1.clone();
        assert_eq!(style("red;}*{display:none"), style("#1f3a4d"));
        assert_ne!(style("#884422"), style("#1f3a4d"));
    }
}
