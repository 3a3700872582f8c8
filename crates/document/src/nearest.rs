//! The nearest spelling, for "did you mean".

/// The candidate that differs least from `word`, if it is near enough to be meant.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let fold = |text: &str| text.to_lowercase().replace(['-', ' '], "_");
    let wanted = fold(word);
    // Past this length nobody misspells; comparing would only cost time.
    if wanted.len() > 80 {
        return None;
    }
    let allowed = 1 + wanted.chars().count() / 4;
    candidates
        .into_iter()
        .filter(|candidate| candidate.len() <= 80)
        .map(|candidate| (strsim::osa_distance(&wanted, &fold(candidate)), candidate))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn near_words_are_found_and_far_ones_are_not() {
        let keys = ["mass", "module", "material", "mean_diameter"];
        assert_eq!(nearest("materail", keys), Some("material"));
        assert_eq!(nearest("Mean-Diameter", keys), Some("mean_diameter"));
        assert_eq!(nearest("colour", keys), None);
    }
}
