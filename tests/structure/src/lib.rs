//! Laws about the repository itself: who may depend on whom, what stands in each crate, which pages are generated.
