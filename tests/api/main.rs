//! Does each route keep its word? Through real HTTP, against a server on a port of its own.

mod actions;
mod asked;
mod audit;
mod bad_requests;
mod batches;
mod capacity;
mod catalogue;
mod command_line;
mod documents;
mod drawings;
mod evidence;
mod exhaustion;
mod keys;
mod languages;
mod layouts;
mod metrics;
mod rechecks;
mod remedies;
mod server;
mod sheets;
mod shell;
mod surveys;
mod tiles;
mod traces;
mod trade;
mod verdicts;
