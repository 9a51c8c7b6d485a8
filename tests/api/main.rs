//! Does each route keep its word? Through real HTTP, against a server on a port of its own.

mod actions;
mod asked;
mod bad_requests;
mod batches;
mod capacity;
mod catalogue;
mod command_line;
mod documents;
mod drawings;
mod exhaustion;
mod languages;
mod layouts;
mod ordinary;
mod rechecks;
mod server;
mod shell;
mod statements;
mod surveys;
mod tiles;
mod traces;
mod verdicts;
