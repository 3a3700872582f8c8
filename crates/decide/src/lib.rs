//! From findings to decisions, all of it by reviewing again with numbers or choices replaced.
//! It never knows: any rule by name, layout, the disk.

pub mod compare;
#[cfg(test)]
#[allow(clippy::expect_used)]
mod examples;
pub mod rank;
pub mod remedy;
pub mod renamed;
pub mod uncertainty;
