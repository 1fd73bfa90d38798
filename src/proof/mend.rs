use crate::source::{Finding, Mend, Source, Span};

/// A source with the mends of its findings applied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mended {
    /// All of it; every byte that no mend touches is as it was.
    pub text: String,
    /// How many mends were applied; of those that overlap the first in the file is.
    pub count: usize,
    /// The lines that change, in their order.
    pub changes: Vec<TextChange>,
}

/// Lines that a mend changes, without the line end behind them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextChange {
    /// Number of the first of them in the source, from 1.
    pub line: usize,
    /// As they were.
    pub old: String,
    /// As they are now.
    pub new: String,
}

/// Applies the mends of a source's findings.
pub fn mended(source: &Source, findings: &[Finding]) -> Mended {
    let text = source.text();
    let mends = applicable(text, findings);
    let mut lines: Vec<Span> = Vec::new();
    for mend in &mends {
        let start = text[..mend.span.start].rfind('\n').map_or(0, |at| at + 1);
        let end = text[mend.span.end..].find('\n').map_or(text.len(), |at| mend.span.end + at);
        match lines.last_mut() {
            Some(last) if start <= last.end => last.end = end.max(last.end),
            _ => lines.push(start..end),
        }
    }
    let change = |part: Span| TextChange {
        line: source.place(part.start).line,
        old: text[part.clone()].into(),
        new: applied(text, part, &mends),
    };
    let changes = lines.into_iter().map(change).collect();
    Mended { text: applied(text, 0..text.len(), &mends), count: mends.len(), changes }
}

/// Mends that change something and do not overlap, in the order of their places.
fn applicable<'f>(text: &str, findings: &'f [Finding]) -> Vec<&'f Mend> {
    let mut mends: Vec<&Mend> = findings.iter().filter_map(|finding| finding.mend.as_ref()).collect();
    mends.sort_by_key(|mend| (mend.span.start, mend.span.end));
    let mut from = 0;
    mends.retain(|mend| {
        let changes = text.get(mend.span.clone()).is_some_and(|old| old != mend.replacement);
        let taken = changes && mend.span.start >= from;
        if taken {
            from = mend.span.end;
        }
        taken
    });
    mends
}

/// A part of a text with the mends that lie in it.
fn applied(text: &str, part: Span, mends: &[&Mend]) -> String {
    let mut written = String::with_capacity(part.len());
    let mut from = part.start;
    for mend in mends.iter().filter(|mend| part.start <= mend.span.start && mend.span.end <= part.end) {
        written.push_str(&text[from..mend.span.start]);
        written.push_str(&mend.replacement);
        from = mend.span.end;
    }
    written.push_str(&text[from..part.end]);
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_measured_text_changes() {
        let source = Source::new("a.yaml", "a: 1 # ½\nb: 22\nc: 3\nd: 44");
        let mend = |span, replacement: &str| Finding::at(0..0, "").mend(span, replacement);
        let findings = [mend(13..15, "3"), mend(3..4, "10"), mend(14..15, "9"), mend(24..26, "5"), mend(19..20, "3")];
        let mended = mended(&source, &findings);
        assert_eq!((mended.text.as_str(), mended.count), ("a: 10 # ½\nb: 3\nc: 3\nd: 5", 3));
        let change = |line, old: &str, new: &str| TextChange { line, old: old.into(), new: new.into() };
        let one = [change(1, "a: 1 # ½", "a: 10 # ½"), change(2, "b: 22", "b: 3"), change(4, "d: 44", "d: 5")];
        assert_eq!(mended.changes, one);
    }

    #[test]
    fn lines_that_one_mend_joins_change_together() {
        let source = Source::new("a.yaml", "a: 1\nb: 2\nc: 3\n");
        let findings = [Finding::at(0..0, "").mend(3..8, "4"), Finding::at(0..0, "").mend(8..9, "5")];
        let change = TextChange { line: 1, old: "a: 1\nb: 2".into(), new: "a: 45".into() };
        assert_eq!(mended(&source, &findings).changes, [change]);
    }
}
