use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level as Shown, Renderer, Snippet};

use crate::source::{Finding, Level, Source, Span, shown, shown_in_place};

/// A finding drawn with its line, the span underlined, and the advice below. `colour` for a terminal.
pub fn terminal(source: &Source, finding: &Finding, colour: bool) -> String {
    let level = match finding.level {
        Level::Error => Shown::ERROR,
        Level::Warning => Shown::WARNING,
        Level::Note => Shown::NOTE,
    };
    let clamp = |span: &Span| clamp(source.text(), span);
    let (own, others) = (clamp(&finding.span), finding.others.iter().map(|other| (clamp(&other.span), &other.text)));
    let others: Vec<(Span, &String)> = others.collect();
    let lines = lines(source.text(), others.iter().map(|(span, _)| span).chain([&own]));
    let within = |span: &Span| span.start - lines.start..span.end - lines.start;
    // The source keeps its bytes where they are, since spans point at them.
    let snippet = Snippet::source(shown_in_place(&source.text()[lines.clone()]))
        .line_start(source.place(lines.start).line)
        .path(shown(source.name()))
        .annotation(AnnotationKind::Primary.span(within(&own)).label(shown(&finding.label)))
        .annotations(others.iter().map(|(span, text)| AnnotationKind::Context.span(within(span)).label(shown(text))));
    let title = level.primary_title(shown(&finding.message)).id(finding.rule);
    let mut report: Vec<Group<'_>> = vec![title.element(snippet)];
    if let Some(help) = &finding.help {
        report.push(Group::with_title(Shown::HELP.secondary_title(shown(help))));
    }
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    renderer.decor_style(DecorStyle::Ascii).render(&report)
}

/// The lines that some spans stand on, and those between them: to look through the whole text for every finding takes
/// its time.
fn lines<'s>(text: &str, spans: impl Iterator<Item = &'s Span> + Clone) -> Span {
    let first = spans.clone().map(|span| span.start).min().unwrap_or_default();
    let last = spans.map(|span| span.end).max().unwrap_or_default();
    let start = text[..first].rfind('\n').map_or(0, |before| before + 1);
    start..text[last..].find('\n').map_or(text.len(), |end| last + end + 1)
}

/// A span that fits the text, stands on whole characters, and ends with its first line: longer ones would draw all of a
/// step to point at one word of it.
fn clamp(text: &str, span: &Span) -> Span {
    // Behind the last line end there is no line.
    let length = text.len() - usize::from(text.ends_with('\n'));
    let floor = |mut at: usize| {
        at = at.min(length);
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = floor(span.start);
    let end = floor(span.end).max(start);
    let line = text[start..end].lines().next().unwrap_or_default();
    start..start + line.trim_end().len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(text: &str, span: Span) -> String {
        terminal(&Source::new("a.yaml", text), &Finding::error("rule", span, "wrong").label("here").help("mend"), false)
    }

    #[test]
    fn a_finding_takes_no_more_lines_than_it_needs() {
        let text = "title: T\nsteps:\n  - do: Mix\n    time: 5 min\n    oven: hot\nend: 1\n";
        let shown = drawn(text, 20..58);
        assert!(shown.contains("3 |   - do: Mix") && !shown.contains("oven"), "{shown}");
        assert_eq!(shown.lines().count(), 7, "{shown}");
    }

    #[test]
    fn no_place_breaks_the_drawing() {
        for (text, span) in
            [("", 0..1), ("", 0..0), ("a\n", 9..12), ("½ ½", 1..2), ("a: \n", 3..3), ("a\r\nb", 1..3), ("\t½", 0..9)]
        {
            let shown = drawn(text, span);
            assert!(shown.contains("wrong") && shown.contains("a.yaml:1:"), "{shown}");
        }
    }
}
