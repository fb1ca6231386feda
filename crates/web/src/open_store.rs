//! The store, lent to readers and one writer at a time, and the short list of results beside it, brought up to
//! date with every event.
//!
//! Reading and writing block, so they run on threads of their own; a few openings of the file are enough for
//! many people, and each keeps little of it in memory.

use crate::http_error::HttpError;
use crate::lock::lock;
use programme::index::Index;
use record::Error;
use record::store::{EventHash, Store, StoreError};
use std::path::Path;
use std::sync::{Mutex, PoisonError, RwLock};
use tokio::sync::Semaphore;

/// Openings for readers: twice the two cores that the project counts on.
const READERS: usize = 4;

/// Memory of one opening, KiB.
const CACHE_KIB: u32 = 8 * 1024;

/// The record of the programme.
pub(crate) struct Record {
    readers: Mutex<Vec<Store>>,
    permits: Semaphore,
    writer: Mutex<Store>,
    index: RwLock<(Option<EventHash>, Index)>,
}

impl Record {
    /// Opens the store, with an opening for each job besides those for pages.
    pub fn open(path: &Path, jobs: usize) -> Result<Self, Error> {
        let open = || -> Result<Store, StoreError> {
            let mut store = Store::open(path)?;
            store.set_cache(CACHE_KIB)?;
            Ok(store)
        };
        let writer = open()?;
        let mut readers = vec![];
        for _ in 0..READERS + jobs {
            readers.push(open()?);
        }
        let index = Index::of(&writer)?;
        let head = writer.head()?;
        Ok(Self {
            readers: Mutex::new(readers),
            permits: Semaphore::new(READERS),
            writer: Mutex::new(writer),
            index: RwLock::new((head, index)),
        })
    }

    /// Reads, on this thread.
    pub fn read_now<T>(&self, read: impl FnOnce(&Store) -> T) -> T {
        let store = lock(&self.readers).pop();
        match store {
            Some(store) => {
                let out = read(&store);
                lock(&self.readers).push(store);
                out
            }
            None => read(&lock(&self.writer)),
        }
    }

    /// Waits for its turn to read.
    pub async fn turn(&self) -> Result<tokio::sync::SemaphorePermit<'_>, HttpError> {
        self.permits.acquire().await.map_err(|_| HttpError::outside("the record is closed"))
    }

    /// Writes, on this thread, after those who came before.
    pub fn write_now<T>(&self, write: impl FnOnce(&mut Store) -> T) -> T {
        write(&mut lock(&self.writer))
    }

    /// The short list of results as the record stands.
    pub fn index<T>(&self, store: &Store, ask: impl FnOnce(&Index) -> T) -> Result<T, HttpError> {
        let head = store.head()?;
        {
            let known = self.index.read().unwrap_or_else(PoisonError::into_inner);
            if known.0 == head {
                return Ok(ask(&known.1));
            }
        }
        let mut known = self.index.write().unwrap_or_else(PoisonError::into_inner);
        if known.0 != head {
            known.1.refresh(store)?;
            known.0 = head;
        }
        Ok(ask(&known.1))
    }
}
