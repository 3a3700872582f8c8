//! One operating condition at one ambient temperature: structure only, no numbers.

/// Which case, and where between the coldest and the hottest outside air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CasePoint {
    /// Index into the machine's cases.
    pub case: usize,
    /// 0 = coldest, 1 = hottest. A case that fixes its own air has the one point 0.
    pub share: f64,
}
