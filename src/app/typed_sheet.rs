//! The sheet in millimetres as it is typed: sizes of panels in a row, another size of the sheet.

use crate::fold::Measure;
use crate::paper::{Length, Unit};

/// Sizes of panels as they stand in a field: "141, 141, 141.5".
#[must_use]
pub fn sizes_text(sizes: &[Length]) -> String {
    let each: Vec<String> = sizes.iter().map(|l| l.short_mm()).collect();
    each.join(", ")
}

/// Reads sizes of panels, as many as there are now. A size that stands as it was is kept to the nanometre.
///
/// # Errors
/// A sentence.
pub fn read_sizes(text: &str, now: &[Length]) -> Result<Vec<Length>, String> {
    // A comma divides sizes, so that decimals are written with a point here.
    let texts: Vec<&str> = text.split([',', ';']).map(str::trim).filter(|t| !t.is_empty()).collect();
    if texts.len() != now.len() {
        return Err(format!(
            "There are {} panels in a row, but {} sizes. A comma divides them.",
            now.len(),
            texts.len()
        ));
    }
    let read = |(text, now): (&&str, &Length)| {
        if *text == now.short_mm() {
            return Ok(*now);
        }
        Length::parse(text, Unit::Mm).map_err(|why| format!("“{text}”: {why}."))
    };
    texts.iter().zip(now).map(read).collect()
}

/// The same panels on a sheet of another size. By how much they differ from equal ones stays.
#[must_use]
pub fn resized(measure: &Measure, width: Length, height: Length) -> Measure {
    let (rows, columns) = (measure.rows.len() as u32, measure.columns.len() as u32);
    let before = Measure::equal(rows, columns, measure.width(), measure.height());
    let after = Measure::equal(rows, columns, width, height);
    let moved = |now: &[Length], before: &[Length], after: &[Length]| {
        let all = now.iter().zip(before).zip(after);
        all.map(|((now, before), after)| *after + (*now - *before)).collect()
    };
    Measure {
        columns: moved(&measure.columns, &before.columns, &after.columns),
        rows: moved(&measure.rows, &before.rows, &after.rows),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const MM: fn(i64) -> Length = Length::from_whole_mm;

    #[test]
    fn sizes_are_read_as_they_are_written() {
        let now = [MM(141), Length::from_um(141_500)];
        assert_eq!(sizes_text(&now), "141, 141.5");
        assert_eq!(read_sizes("141, 141.5", &now), Ok(now.to_vec()));
        assert_eq!(read_sizes("5 1/2 in; 100", &now), Ok(vec![Length::from_um(139_700), MM(100)]));
        assert!(read_sizes("141", &now).unwrap_err().contains("2 panels"));
        assert!(read_sizes("141, wide", &now).unwrap_err().starts_with("“wide”"));
        // A third of a metre is no whole number of micrometres; it is not rounded by being looked at.
        let third = [MM(1000).shared(3)];
        assert_eq!(read_sizes(&sizes_text(&third), &third), Ok(third.to_vec()));
    }

    #[test]
    fn another_size_keeps_the_lip() {
        let lip = Measure { columns: vec![MM(144), MM(138)], rows: vec![MM(222)] };
        let larger = resized(&lip, MM(300), MM(250));
        assert_eq!(larger, Measure { columns: vec![MM(153), MM(147)], rows: vec![MM(250)] });
        assert_eq!(resized(&larger, MM(282), MM(222)), lip);
    }
}
