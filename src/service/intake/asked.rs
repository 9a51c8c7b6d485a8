//! What the verdict is asked on, and the checks that somebody answers for.

use crate::assessment::{Asked, Declaration, DeclaredBy, Kind, Scope, Severity};
use crate::wire::declarations::{Declaration as WireDeclaration, DeclaredBy as WireDeclaredBy};
use crate::wire::fault::FaultCode;
use crate::wire::scopes::ScopeName;

use super::{Common, Notes};

/// Notes what the verdict is asked on and what is declared.
pub fn asked(request: &Common<'_>, notes: &mut Notes) {
    if let Some(scopes) = request.scopes {
        let scopes: Vec<Scope> = scopes.iter().map(|name| scope(*name)).collect();
        notes.remarks.asked = Asked::of(&scopes);
    }
    for (i, wire) in request.declarations.iter().enumerate() {
        if let Some(declaration) = declaration(i, wire, notes) {
            notes.remarks.declarations.push(declaration);
        }
    }
}

fn declaration(i: usize, wire: &WireDeclaration, notes: &mut Notes) -> Option<Declaration> {
    let at = format!("/declarations/{i}");
    let check = check(&at, &wire.check, notes)?;
    let by = ground(wire.by);
    if !check.yields_to(by) {
        let detail = format!(
            "What \"{}\" asks for is evidence: declare it as tested or approved.",
            check.code
        );
        notes.fault(format!("{at}/by"), FaultCode::Contradiction, detail);
        return None;
    }
    let (who, document) = (wire.who.clone(), wire.document.clone());
    Some(Declaration { check, by, who, document })
}

/// The check a declaration names: one that can be without a result, and was not named before.
fn check(at: &str, code: &str, notes: &mut Notes) -> Option<&'static Kind> {
    let at = format!("{at}/check");
    let Some(kind) = Kind::of_code(code) else {
        let detail =
            format!("\"{code}\" is no code of a finding; GET /v1/warnings lists all there are.");
        notes.fault(at, FaultCode::UnknownValue, detail);
        return None;
    };
    let declared = &notes.remarks.declarations;
    let refused = if declared.iter().any(|known| known.check.code == kind.code) {
        "is declared already"
    } else if kind.yields_to(DeclaredBy::Approved) {
        return Some(kind);
    } else {
        match kind.severity {
            Severity::Failure => "is a check that fails, and no declaration changes that",
            Severity::Incomplete => "can only be settled in the job itself",
            Severity::Warning | Severity::Notice => "leaves no check open that could be taken over",
        }
    };
    notes.fault(at, FaultCode::Contradiction, format!("\"{code}\" {refused}."));
    None
}

const fn scope(name: ScopeName) -> Scope {
    match name {
        ScopeName::Fixing => Scope::Fixing,
        ScopeName::Rail => Scope::Rail,
        ScopeName::Modules => Scope::Modules,
        ScopeName::Rafters => Scope::Rafters,
        ScopeName::Covering => Scope::Covering,
        ScopeName::Data => Scope::Data,
    }
}

const fn ground(by: WireDeclaredBy) -> DeclaredBy {
    match by {
        WireDeclaredBy::Tested => DeclaredBy::Tested,
        WireDeclaredBy::Approved => DeclaredBy::Approved,
        WireDeclaredBy::OtherParty => DeclaredBy::OtherParty,
        WireDeclaredBy::NotApplicable => DeclaredBy::NotApplicable,
    }
}
