//! Comma-separated values as RFC 4180 writes them down: a header, lines that end with CR LF, quotes where
//! a cell needs them.
//!
//! A spreadsheet computes what begins with `=`, `+`, `-` or `@`, and no quotes keep it from that. So a text
//! that begins with one of them, or with a character that spreadsheets skip, gets an apostrophe before it
//! (OWASP Application Security Verification Standard 5.0, 1.2.10). Numbers are written as they are.

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Nothing: there is no such value.
    Empty,
    /// A text, of ours or of the caller.
    Text(String),
    /// A number.
    Number(f64),
    /// A whole number.
    Whole(i64),
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<i64> for Cell {
    fn from(number: i64) -> Self {
        Self::Whole(number)
    }
}

impl From<u64> for Cell {
    /// Counts of parts, far below the largest number there is a cell for.
    fn from(count: u64) -> Self {
        Self::Whole(i64::try_from(count).unwrap_or(i64::MAX))
    }
}

impl<T: Into<Self>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Empty, Into::into)
    }
}

impl Cell {
    fn written(&self) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Text(text) => quoted(&guarded(text)),
            // The shortest digits that are read as the same number.
            Self::Number(number) => number.to_string(),
            Self::Whole(number) => number.to_string(),
        }
    }
}

/// A text that no spreadsheet takes for a formula.
fn guarded(text: &str) -> String {
    let computes = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\0']);
    if computes { format!("'{text}") } else { text.to_owned() }
}

/// A text in quotes where it has to be (RFC 4180, 2, rules 5 to 7).
fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

/// A column: its name, with the unit where there is one, and what it says of a row.
pub struct Column<R> {
    /// The name.
    pub name: &'static str,
    /// The cell of a row.
    pub cell: fn(&R) -> Cell,
}

/// The table of some rows.
#[must_use]
pub fn write<R>(columns: &[Column<R>], rows: impl IntoIterator<Item = R>) -> String {
    let header = columns.iter().map(|column| column.name.to_owned());
    let mut text = line(header);
    for row in rows {
        text += &line(columns.iter().map(|column| (column.cell)(&row).written()));
    }
    text
}

fn line(cells: impl Iterator<Item = String>) -> String {
    cells.collect::<Vec<_>>().join(",") + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(of: &str) -> String {
        Cell::from(of).written()
    }

    /// RFC 4180, section 2: the examples of rules 5 to 7.
    #[test]
    fn a_cell_is_in_quotes_where_it_has_to_be() {
        assert_eq!(text("aaa"), "aaa");
        assert_eq!(text("b CRLF\r\nbb"), "\"b CRLF\r\nbb\"");
        assert_eq!(text("b\"bb"), "\"b\"\"bb\"");
        assert_eq!(text("a,b"), "\"a,b\"");
    }

    /// OWASP Application Security Verification Standard 5.0, 1.2.10.
    #[test]
    fn no_text_is_taken_for_a_formula_and_numbers_stay_numbers() {
        for formula in ["=1+1", "+1", "-1", "@A1", "\t=1", "\0=1"] {
            assert_eq!(text(formula), format!("'{formula}"));
        }
        assert_eq!(text("=HYPERLINK(\"x\",\"y\")"), "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
        assert_eq!(text("A-1"), "A-1");
        assert_eq!(Cell::from(-2.5).written(), "-2.5");
        assert_eq!(Cell::from(-2_i64).written(), "-2");
        assert_eq!(Cell::from(None::<f64>).written(), "");
    }

    #[test]
    fn a_table_has_a_header_and_ends_its_lines() {
        let columns: [Column<f64>; 2] = [
            Column { name: "x_mm", cell: |x| (*x).into() },
            Column { name: "twice", cell: |x| (2.0 * x).into() },
        ];
        assert_eq!(write(&columns, [1.0, 0.25]), "x_mm,twice\r\n1,2\r\n0.25,0.5\r\n");
        assert_eq!(write(&columns, []), "x_mm,twice\r\n");
    }
}
