//! A lock that outlives a panic of who held it.

use std::sync::{Mutex, MutexGuard, PoisonError};

/// A lock whose holder cannot have left it half changed: every act is whole or not at all.
pub(crate) fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
