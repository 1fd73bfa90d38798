use crate::source::{Finding, Mend, Source};

/// The text of a source with the mends of its findings applied, and how many were; every other byte stays.
///
/// Of mends that overlap the first in the file is taken.
pub fn mended(source: &Source, findings: &[Finding]) -> (String, usize) {
    let mut mends: Vec<&Mend> = findings.iter().filter_map(|finding| finding.mend.as_ref()).collect();
    mends.sort_by_key(|mend| (mend.span.start, mend.span.end));
    let text = source.text();
    let mut written = String::with_capacity(text.len());
    let (mut from, mut count) = (0, 0);
    for mend in mends {
        if mend.span.start < from || text.get(mend.span.clone()).is_none_or(|old| old == mend.replacement) {
            continue;
        }
        written.push_str(&text[from..mend.span.start]);
        written.push_str(&mend.replacement);
        from = mend.span.end;
        count += 1;
    }
    written.push_str(&text[from..]);
    (written, count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_measured_text_changes() {
        let source = Source::new("a.yaml", "a: 1 # ½\nb: 22\n");
        let mend = |span, replacement: &str| Finding::at(0..0, "").mend(span, replacement);
        let findings = [mend(13..15, "3"), mend(3..4, "10"), mend(14..15, "9")];
        assert_eq!(mended(&source, &findings), ("a: 10 # ½\nb: 3\n".into(), 2));
    }
}
