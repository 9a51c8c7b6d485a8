//! What can be asked of an answer beside its JSON, kind by kind of job, and what makes it.

use crate::http::representation::Form;
use crate::service::request::Options;
use crate::service::shown::{Drawn, Look, Shown, View};
use crate::service::tables::Tabled;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::sheets::SheetPart;
use crate::wire::tables::TableName;

/// Makes a sheet from a request and its digest.
type Sheet<R> = fn(&R, &str, SheetPart, &Options) -> Result<Shown, Vec<Fault>>;

/// Makes a drawing from a request and its digest.
type Drawing<R> = fn(&R, &str, &View, &Options) -> Result<Shown, Vec<Fault>>;

/// Makes a table from a request and its digest.
type Table<R> = fn(&R, &str, TableName, &Options) -> Result<Shown, Vec<Fault>>;

/// Looks of the answers of a kind, and whether they have a trace for who asks for it.
#[derive(Debug)]
pub struct Forms<R> {
    trace: bool,
    sheet: Option<Sheet<R>>,
    parts: &'static [SheetPart],
    drawing: Option<Drawing<R>>,
    tables: &'static [TableName],
    table: Option<Table<R>>,
}

impl<R> Forms<R> {
    /// JSON and nothing else; what traces would say is there in any case.
    pub const JSON: Self =
        Self { trace: false, sheet: None, parts: &[], drawing: None, tables: &[], table: None };

    /// The same, and a sheet.
    pub const fn with_sheet(sheet: Sheet<R>) -> Self {
        Self { sheet: Some(sheet), ..Self::JSON }
    }

    /// What there is to ask for.
    #[must_use]
    pub const fn offer(&self) -> Offer {
        let (sheet, drawing) = (self.sheet.is_some(), self.drawing.is_some());
        Offer { trace: self.trace, sheet, parts: self.parts, drawing, tables: self.tables }
    }

    /// A request as people look at it.
    ///
    /// # Errors
    /// Every fault of the request that its schema cannot see, and a look that is not on offer.
    pub fn show(
        &self,
        look: &Look,
        request: &R,
        digest: &str,
        options: &Options,
    ) -> Result<Shown, Vec<Fault>> {
        let shown = match look {
            Look::Sheet(part) => self.sheet.map(|sheet| sheet(request, digest, *part, options)),
            Look::Drawing(view) => self.drawing.map(|draw| draw(request, digest, view, options)),
            Look::Table(table) => self.table.map(|tell| tell(request, digest, *table, options)),
        };
        shown.unwrap_or_else(|| {
            let detail = "A job of this kind cannot be shown in this form.";
            Err(vec![Fault::new("", FaultCode::UnknownValue, detail)])
        })
    }
}

impl<R: Tabled> Forms<R> {
    /// A sheet with its parts, drawings, tables, and a trace for who asks for it.
    pub const fn with_all(
        (sheet, parts): (Sheet<R>, &'static [SheetPart]),
        drawing: Drawing<R>,
    ) -> Self {
        Self {
            trace: true,
            sheet: Some(sheet),
            parts,
            drawing: Some(drawing),
            tables: R::TABLES,
            table: Some(R::table),
        }
    }
}

impl<R: Drawn + Tabled> Forms<R> {
    /// Drawings, a sheet and tables, and a trace for who asks for it.
    pub const DRAWN: Self = Self::with_all((R::sheet, R::PARTS), R::drawing);
}

/// What there is to ask for of an answer of some kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Offer {
    /// A trace, where it is not there in any case.
    pub trace: bool,
    /// A sheet to print.
    pub sheet: bool,
    /// Parts of it that can be printed by themselves.
    pub parts: &'static [SheetPart],
    /// Drawings.
    pub drawing: bool,
    /// Tables.
    pub tables: &'static [TableName],
}

impl Offer {
    /// Whether answers have a form.
    #[must_use]
    pub const fn has(self, form: Form) -> bool {
        match form {
            Form::Json => true,
            Form::Schema | Form::Lines => false,
            Form::Drawing => self.drawing,
            Form::Sheet => self.sheet,
            Form::Table => !self.tables.is_empty(),
        }
    }

    /// Every form answers have; JSON first, for callers without a preference.
    #[must_use]
    pub fn forms(self) -> Vec<Form> {
        Form::OF_JOBS.into_iter().filter(|form| self.has(*form)).collect()
    }
}
