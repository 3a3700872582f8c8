//! Files that are wrong in every way that we could think of, and exactly what is said about each.
