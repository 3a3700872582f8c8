//! One operating condition at one ambient temperature: structure only, no numbers.

/// Which case, and where between the coldest and the hottest outside air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CasePoint {
    /// Index into the machine's cases.
    pub case: usize,
    /// 0 = coldest, 1 = hottest. Of no account in a case that fixes its own air, but for the cases before it.
    pub share: f64,
}
