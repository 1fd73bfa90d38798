/// Which key of a step a text stands under.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepKey {
    /// `do`, or a step that is one sentence.
    Do,
    /// `oven`.
    Oven,
    /// `heat`.
    Heat,
    /// `until`.
    Until,
    /// `mind`.
    Mind,
}
