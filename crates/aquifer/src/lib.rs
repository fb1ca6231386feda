//! Where the water comes from: the well, its flow, and the aquifer behind it.
//!
//! In: timed fills, gauge readings, the construction of the well, flow and drawdown in time.
//! Out: flow, head, contact time, each with u and its derivation. Lengths in m, times in s or min
//! as the name says; the interfaces turn feet, gallons and psi into these.
//!
//! * [`well`] — construction, flow from timed fills, contact time with each pipe material, head.
//! * [`pipe`], [`purge`] — what the pipe adds, washout of standing water, steady readings.
//! * [`welltest`], [`functions`] — transmissivity and storage from flow or drawdown in time.
//! * [`age`] — time since recharge by environmental tracers.
//! * [`travel`], [`mixing`] — travel time and capture width; the overflow in the river.
//! * [`age`] — when and where the water fell, by environmental tracers.
//! * [`Reason`] — why there is no answer, as a message.
//!
//! Caution: opening or shutting a flowing well can damage it or the ground; drilling into pressure
//! is licensed work, under the local code.

// Readings and zeros are compared as they were written down, not as they were computed.
#![allow(clippy::float_cmp)]

pub mod age;
pub mod calc;
pub mod functions;
pub mod mixing;
pub mod pipe;
pub mod purge;
mod reason;
pub mod separable;
pub mod stats;
pub mod travel;
pub mod water;
pub mod well;
pub mod welltest;

pub use calc::CALCULATIONS;
pub use quantity::Refusal as Error;
pub use reason::Reason;
