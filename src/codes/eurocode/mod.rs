//! The Eurocodes: one file per document and edition, national choices in [`annex`].

pub mod annex;
pub mod en1990_2002;
pub mod en1991_1_3_2003;
pub mod en1991_1_4_2005;
pub mod en1995_1_1_2004;
pub mod en1999_1_1_2007;
