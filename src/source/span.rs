/// Bytes of a source, from the first to one past the last.
pub type Span = std::ops::Range<usize>;
