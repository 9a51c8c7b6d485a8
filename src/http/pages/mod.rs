//! What people read: the start page, the page on the roof, the pages of problems, the maker's form, the page of
//! the description, and the examples they are all written with.

pub mod documents;
pub mod examples;
pub mod landing;
pub mod roof;
pub mod statement;
