//! Cautions that go with every answer. Each country's law and the products' own instructions come
//! before anything computed here.

use crate::model::layout::Caution;

/// The cautions, most urgent first.
pub const CAUTIONS: &[Caution] = &[
    Caution {
        code: "work-at-height",
        text: "Work on a roof can kill. Scaffold and edge protection come before anything else; \
               roof coverings, windows and sheets may not carry a person.",
    },
    Caution {
        code: "not-an-approval",
        text: "This is a calculation aid. It approves nothing and replaces neither a structural \
               engineer nor a licensed roofer nor the instructions of the parts used.",
    },
    Caution {
        code: "local-rules-first",
        text: "Local building law, national annexes in their current edition and the rules of the \
               roofing trade take precedence over this result.",
    },
    Caution {
        code: "check-on-site",
        text: "The result is as good as the measurements. Where rafters, battens, layers or tiles \
               differ on site, stop and compute again.",
    },
    Caution {
        code: "old-roof",
        text: "A damaged, altered or sagging roof structure, and trussed rafters, need a structural \
               engineer before any load is added.",
    },
    Caution {
        code: "asbestos",
        text: "Old fibre-cement slates and sheets may contain asbestos. Do not drill, cut or walk on \
               them; have them tested and left to licensed people.",
    },
    Caution {
        code: "electrical",
        text: "Modules are live in daylight. Electrical work, bonding and lightning protection are \
               for qualified electricians.",
    },
    Caution {
        code: "sliding-snow",
        text: "Snow slides off modules suddenly. Look at what lies below; guards must be designed \
               for the array.",
    },
    Caution {
        code: "weathertightness",
        text: "Every opened course must be closed so that tiles lie as before and are fixed again; \
               below the covering's own least pitch extra measures are needed.",
    },
];
