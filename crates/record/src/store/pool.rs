//! A few connections for many who want one: a server has places for about a hundred, and each
//! costs it memory. Who asks while all are out waits until one comes back.
//!
//! In: an address and how many may be open at once. Out: a [`Store`] on loan. A store is given on
//! as it came back: an act is whole or not at all, so none comes back half-way.

use super::{Store, StoreError};
use std::ops::{Deref, DerefMut};
use std::path::{Path, PathBuf};
use std::sync::{Condvar, Mutex, PoisonError};

/// The stores that are in, and how many there are.
struct Places {
    idle: Vec<Store>,
    open: usize,
}

/// Stores to lend.
pub struct Pool {
    address: PathBuf,
    most: usize,
    places: Mutex<Places>,
    back: Condvar,
}

impl Pool {
    /// At most so many (at least one) stores of one address; they are opened when first wanted.
    pub fn new(address: impl AsRef<Path>, most: usize) -> Self {
        let places = Mutex::new(Places { idle: vec![], open: 0 });
        Self { address: address.as_ref().into(), most: most.max(1), places, back: Condvar::new() }
    }

    /// A store, as soon as one is free.
    ///
    /// # Errors
    /// As [`Store::open`].
    pub fn take(&self) -> Result<Lent<'_>, StoreError> {
        let mut places = self.places.lock().unwrap_or_else(PoisonError::into_inner);
        loop {
            if let Some(store) = places.idle.pop() {
                return Ok(Lent { pool: self, store: Some(store) });
            }
            if places.open < self.most {
                places.open += 1;
                break;
            }
            places = self.back.wait(places).unwrap_or_else(PoisonError::into_inner);
        }
        drop(places);
        // The place is given back also where no store comes of it.
        let mut lent = Lent { pool: self, store: None };
        lent.store = Some(Store::open(&self.address)?);
        Ok(lent)
    }
}

/// A store on loan; dropped, it is free for the next.
pub struct Lent<'p> {
    pool: &'p Pool,
    store: Option<Store>,
}

impl Deref for Lent<'_> {
    type Target = Store;
    fn deref(&self) -> &Store {
        self.store.as_ref().expect("it is held until it is dropped")
    }
}

impl DerefMut for Lent<'_> {
    fn deref_mut(&mut self) -> &mut Store {
        self.store.as_mut().expect("it is held until it is dropped")
    }
}

impl Drop for Lent<'_> {
    fn drop(&mut self) {
        let mut places = self.pool.places.lock().unwrap_or_else(PoisonError::into_inner);
        match self.store.take() {
            Some(store) => places.idle.push(store),
            None => places.open -= 1,
        }
        drop(places);
        self.pool.back.notify_one();
    }
}
