//! Plots along one rail.
