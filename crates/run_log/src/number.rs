//! One cell as a number.

use crate::trouble::Why;

/// Beyond it sums of squares over days would no longer be numbers, and nothing on a machine is so large.
const MOST: f64 = 1e12;

pub(crate) fn number(cell: &[u8]) -> Result<f64, Why> {
    let Ok(text) = std::str::from_utf8(cell) else { return Err(Why::NotUtf8) };
    let text = text.trim();
    if text.is_empty() {
        return Err(Why::NothingInCell);
    }
    match text.parse::<f64>() {
        Ok(number) if number.is_finite() && number.abs() <= MOST => Ok(number),
        Ok(number) if number.is_finite() => Err(Why::TooLarge { text: text.into() }),
        // A number too large for one reads as infinite.
        Ok(_) if text.chars().any(|c| c.is_ascii_digit()) => Err(Why::TooLarge { text: text.into() }),
        Ok(_) => Err(Why::NotFinite { text: text.into() }),
        Err(_) if text.contains(',') && text.replacen(',', ".", 1).parse::<f64>().is_ok() => {
            Err(Why::DecimalComma { text: text.into() })
        }
        Err(_) => Err(Why::NotNumber { text: text.into() }),
    }
}
