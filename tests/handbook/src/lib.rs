//! Published tables and worked examples, one data file a source, compared with `physics`; and tables that we worked out ourselves
//! from published formulas, whose first line says `own evaluation`. Regression values never stand here.
//! Here is only the reader of those files: lines that begin with `#` cite the source, the next one names the columns.

/// One line of a table, by the names of its columns.
#[derive(Debug, Clone)]
pub struct Row {
    cells: Vec<(String, String)>,
    line: usize,
}

/// All lines of a table.
#[must_use]
pub fn table(text: &str) -> Vec<Row> {
    let mut lines = text.lines().enumerate().filter(|(_, line)| !line.starts_with('#') && !line.trim().is_empty());
    let Some((_, head)) = lines.next() else { return Vec::new() };
    let names: Vec<&str> = head.split(',').map(str::trim).collect();
    lines
        .map(|(number, line)| Row {
            cells: names.iter().map(|n| (*n).to_owned()).zip(line.split(',').map(|c| c.trim().to_owned())).collect(),
            line: number + 1,
        })
        .collect()
}

impl Row {
    /// The cell's text.
    ///
    /// # Panics
    /// Without such a column: a test that reads nothing must not pass.
    #[must_use]
    #[expect(clippy::panic, reason = "only tests read tables")]
    pub fn s(&self, name: &str) -> &str {
        let cell = self.cells.iter().find(|(column, _)| column == name);
        cell.map_or_else(|| panic!("line {}: no column {name}", self.line), |(_, text)| text)
    }

    /// The cell's number, if it is not empty.
    ///
    /// # Panics
    /// Without such a column, or if it holds no number.
    #[must_use]
    #[expect(clippy::panic, reason = "only tests read tables")]
    pub fn opt(&self, name: &str) -> Option<f64> {
        let text = self.s(name);
        let number = || text.parse().unwrap_or_else(|_| panic!("line {}: {name} is no number: {text}", self.line));
        (!text.is_empty()).then(number)
    }

    /// The cell's number.
    ///
    /// # Panics
    /// Without such a column, or if it holds no number.
    #[must_use]
    #[expect(clippy::panic, reason = "only tests read tables")]
    pub fn f(&self, name: &str) -> f64 {
        self.opt(name).unwrap_or_else(|| panic!("line {}: {name} is empty", self.line))
    }

    /// Asserts that `ours` is what is printed, to half of the last of so many significant digits.
    ///
    /// # Panics
    /// If it is not.
    pub fn prints(&self, name: &str, ours: f64, digits: i32) {
        let printed = self.f(name);
        let half =
            if printed == 0.0 { 0.0 } else { 0.5 * 10f64.powi(printed.abs().log10().floor() as i32 + 1 - digits) };
        // A hair more than half, for a number that lies exactly between two printed ones.
        let close = (ours - printed).abs() <= half * 1.0001;
        assert!(close, "line {}: {name} is printed {printed}, worked out {ours}", self.line);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_names_gaps_and_digits() {
        let rows = table("# source: none\na,b,c\n1.5,,x\n12345.67891,2,y\n");
        assert_eq!((rows.len(), rows[0].f("a"), rows[0].opt("b"), rows[0].s("c")), (2, 1.5, None, "x"));
        rows[1].prints("a", 12_345.678_914_9, 10);
        assert!(std::panic::catch_unwind(|| rows[1].prints("a", 12_345.678_915_2, 10)).is_err());
        assert!(std::panic::catch_unwind(|| rows[1].prints("a", f64::NAN, 10)).is_err());
        assert!(std::panic::catch_unwind(|| rows[1].f("d")).is_err());
    }
}
