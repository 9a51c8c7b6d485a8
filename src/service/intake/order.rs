//! What the order should look like: stock, spares and packs.

use crate::assessment::Assumed;
use crate::parts::bars::Aim;
use crate::parts::{Allowance, Allowances, Order};
use crate::units::Length;
use crate::wire::fault::FaultCode;
use crate::wire::parts::{
    Allowance as WireAllowance, Allowances as WireAllowances, OrderWishes, StockAim,
};

use super::Notes;

const AT: &str = "/wishes/order";
/// Shortest piece worth joining or keeping, mm.
const USUAL_PIECE: f64 = 500.0;
/// Spare hooks, percent: dear, and seldom broken or lost.
const SPARE_HOOKS: f64 = 2.0;
/// Spares of everything else, percent: small parts roll off roofs, tiles break.
const SPARES: f64 = 5.0;

/// Resolves the wishes. `longest` is the longest stock length, if the rail is known.
pub fn order(wire: Option<&OrderWishes>, longest: Option<Length>, notes: &mut Notes) -> Order {
    let wire = wire.cloned().unwrap_or_default();
    let aim =
        notes.assume("/wishes/order/stock_aim", wire.stock_aim, StockAim::LeastLength, |_| {
            Assumed::LeastLength
        });
    let half = longest.map(|longest| longest / 2.0);
    let usual = half.map_or(USUAL_PIECE, |half| half.mm().min(USUAL_PIECE));
    let min_piece = notes.assume(
        "/wishes/order/min_piece_mm",
        wire.min_piece_mm.map(Length::from_mm),
        Length::from_mm(usual),
        Assumed::MinPiece,
    );
    if let Some(half) = half.filter(|half| *half < min_piece) {
        notes.fault(
            format!("{AT}/min_piece_mm"),
            FaultCode::Contradiction,
            format!(
                "Rails cannot always be made up of pieces longer than half the longest stock \
                 length, {} mm.",
                half.mm()
            ),
        );
    }
    Order {
        aim: match aim {
            StockAim::LeastLength => Aim::LeastLength,
            StockAim::FewestBars => Aim::FewestBars,
        },
        min_piece,
        allowances: allowances(wire.allowances.as_ref(), notes),
    }
}

/// One line says what is assumed when nothing is given, else one line for each figure left out.
fn allowances(wire: Option<&WireAllowances>, notes: &mut Notes) -> Allowances {
    if wire.is_none() {
        let usual = Assumed::UsualSpares { hooks: SPARE_HOOKS, others: SPARES };
        notes.note("/wishes/order/allowances", usual);
    }
    let mut resolve = |kind: &str, given: Option<WireAllowance>, usual: f64| {
        let given_kind = given.unwrap_or_default();
        let Some(_) = wire else {
            return Allowance { spare_percent: usual, pack: 1 };
        };
        let at = format!("{AT}/allowances/{kind}");
        Allowance {
            spare_percent: notes.assume(
                &format!("{at}/spare_percent"),
                given_kind.spare_percent,
                usual,
                Assumed::Spares,
            ),
            pack: notes.assume(&format!("{at}/pack_size"), given_kind.pack_size, 1, |_| {
                Assumed::SoldSingly
            }),
        }
    };
    let given = wire.cloned().unwrap_or_default();
    Allowances {
        hook: resolve("hook", given.hook, SPARE_HOOKS),
        screw: resolve("screw", given.screw, SPARES),
        substitute_tile: resolve("substitute_tile", given.substitute_tile, SPARES),
        packer: resolve("packer", given.packer, SPARES),
        bolt_set: resolve("bolt_set", given.bolt_set, SPARES),
        splice: resolve("splice", given.splice, SPARES),
        mid_clamp: resolve("mid_clamp", given.mid_clamp, SPARES),
        end_clamp: resolve("end_clamp", given.end_clamp, SPARES),
        end_cap: resolve("end_cap", given.end_cap, SPARES),
    }
}
