use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level as Shown, Renderer, Snippet};

use crate::source::{Finding, Level, Source, Span};

/// A finding drawn with its line, the span underlined, and the advice below. `colour` for a terminal.
pub fn terminal(source: &Source, finding: &Finding, colour: bool) -> String {
    let level = match finding.level {
        Level::Error => Shown::ERROR,
        Level::Warning => Shown::WARNING,
        Level::Note => Shown::NOTE,
    };
    let clamp = |span: &Span| clamp(source.text(), span);
    let others = finding.others.iter();
    let snippet = Snippet::source(source.text())
        .path(source.name())
        .annotation(AnnotationKind::Primary.span(clamp(&finding.span)).label(finding.label.as_str()))
        .annotations(others.map(|o| AnnotationKind::Context.span(clamp(&o.span)).label(o.text.as_str())));
    let mut report: Vec<Group<'_>> = vec![level.primary_title(&finding.message).id(finding.rule).element(snippet)];
    if let Some(help) = &finding.help {
        report.push(Group::with_title(Shown::HELP.secondary_title(help)));
    }
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    renderer.decor_style(DecorStyle::Ascii).render(&report)
}

/// A span that fits the text and stands on whole characters.
fn clamp(text: &str, span: &Span) -> Span {
    let floor = |mut at: usize| {
        at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = floor(span.start);
    start..floor(span.end).max(start)
}
