//! Numbers as a language writes them: its decimal sign, the true minus of papers, per cent.

use super::Words;

impl Words {
    /// A number with the decimal sign of the language.
    #[must_use]
    pub fn written(&self, number: &str) -> String {
        number.replace('.', self.decimal_sign)
    }

    /// A number as papers print it, with so many decimals: a true minus, and none before a zero.
    #[must_use]
    pub fn figure(&self, value: f64, decimals: usize) -> String {
        on_paper(self.written(&format!("{value:.decimals$}")))
    }

    /// The same without useless zeros: so many decimals at most.
    #[must_use]
    pub fn number(&self, value: f64, decimals: i32) -> String {
        on_paper(self.shortest(value, decimals))
    }

    /// A number with so many decimals at most, as sentences have it.
    pub(super) fn shortest(&self, value: f64, decimals: i32) -> String {
        let scale = 10_f64.powi(decimals);
        // The sum makes a plain zero of a negative one.
        self.written(&((value * scale).round() / scale + 0.0).to_string())
    }

    /// A share in per cent, to the nearest with so many decimals.
    #[must_use]
    pub fn percent(&self, share: f64, decimals: usize) -> String {
        format!("{} %", self.written(&format!("{:.decimals$}", share * 100.0)))
    }

    /// A utilisation in per cent, upwards: what prints as 100 % is no more. Of a demand against next
    /// to nothing the figure says nothing.
    #[must_use]
    pub fn used(&self, used: f64, decimals: usize) -> String {
        /// The rounding of the arithmetic, a billionth of the whole.
        const LET_GO: f64 = 1e-9;
        if used >= 10.0 {
            return "> 999 %".to_owned();
        }
        let steps = [1e2, 1e3, 1e4][decimals.min(2)];
        // The sum makes a plain zero of a negative one.
        self.percent(((used - LET_GO) * steps).ceil() / steps + 0.0, decimals)
    }
}

fn on_paper(number: String) -> String {
    match number.strip_prefix('-') {
        None => number,
        Some(size) if size.chars().any(|digit| ('1'..='9').contains(&digit)) => format!("−{size}"),
        Some(zero) => zero.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use crate::language::Language;

    #[test]
    fn numbers_are_written_as_their_readers_write_them() {
        let [english, german] = Language::ALL.map(Language::words);
        assert_eq!(english.figure(-1.255, 1), "−1.3");
        assert_eq!(german.figure(-1.255, 1), "−1,3");
        assert_eq!(german.figure(-0.04, 1), "0,0");
        assert_eq!(german.number(6.5, 1), "6,5");
        assert_eq!(german.number(8.0, 1), "8");
        assert_eq!(german.percent(0.225, 1), "22,5 %");
    }

    #[test]
    fn a_utilisation_over_one_never_reads_one_hundred() {
        let words = Language::English.words();
        assert_eq!(words.used(1.0, 0), "100 %");
        assert_eq!(words.used(1.000_01, 0), "101 %");
        assert_eq!(words.used(1.000_01, 1), "100.1 %");
        assert_eq!(words.used(0.9285, 1), "92.9 %");
        assert_eq!(words.used(0.28, 0), "28 %");
        assert_eq!(words.used(0.0, 1), "0.0 %");
        assert_eq!(words.used(12.0, 0), "> 999 %");
    }
}
