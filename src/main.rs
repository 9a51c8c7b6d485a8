//! hookspan
fn main() {}
