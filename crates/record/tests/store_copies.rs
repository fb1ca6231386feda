//! A copy is a copy: what a plain copy of a file lacks while others have it open is told; several that make one name leave
//! one whole programme; a tampered copy is not restored.

use crate::store_common;

use record::store::{Act, Cell, Store, StoreError, restore, told_by_file};
use store_common::{fill, folder, info};

#[test]
fn a_plain_copy_of_an_open_file_may_lack_the_newest_acts_and_that_is_told() {
    let (folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    fill(&mut store);
    drop(store);
    // Closed, the file holds all.
    let mut store = Store::open(&path).unwrap();
    assert_eq!(store.only_in_the_log().unwrap(), Some(0));
    let named = |act: &mut Act| act.insert("person", &["Somebody new".into(), Cell::Null]);
    store.act::<_, StoreError>(&info("entry"), named).unwrap();
    let events = store.last_event_number().unwrap();
    assert_eq!(store.only_in_the_log().unwrap(), Some(1));
    let plain = folder.path().join("plain.sqlite");
    std::fs::copy(&path, &plain).unwrap();
    let whole = folder.path().join("whole.sqlite");
    store.backup(&whole).unwrap();
    assert_eq!(told_by_file(&whole).unwrap(), (events, store.head().unwrap()));
    assert_eq!(told_by_file(&plain).unwrap().0, events - 1);
    // The plain copy is sound by itself: only its number of events and its head tell that something is missing.
    let copy = Store::open(&plain).unwrap();
    assert_eq!(copy.verify(None).unwrap().differences, []);
    assert_eq!(copy.verify(store.head().unwrap()).unwrap().differences.len(), 1);
    // Reading the copy's head left nothing beside it.
    assert!(!folder.path().join("whole.sqlite-wal").exists());
}

#[test]
fn several_that_make_one_name_at_once_leave_one_whole_programme() {
    for round in 0..10 {
        let (folder, path) = folder();
        // Every other time an empty file stands there already, as programs that choose a name make one.
        if round % 2 == 1 {
            std::fs::write(&path, "").unwrap();
        }
        let made: Vec<Result<Store, StoreError>> = std::thread::scope(|s| {
            let all: Vec<_> = (0..4).map(|_| s.spawn(|| Store::create(&path))).collect();
            all.into_iter().map(|t| t.join().unwrap()).collect()
        });
        let refused = made.iter().filter(|m| matches!(m, Err(StoreError::Exists { .. }))).count();
        assert_eq!(refused, 3, "{:?}", made.iter().map(|m| m.as_ref().err()).collect::<Vec<_>>());
        drop(made);
        assert_eq!(Store::open(&path).unwrap().verify(None).unwrap().differences, []);
        let left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
        assert_eq!(left, [path.file_name().unwrap()], "nothing in the making is left");
    }
}

#[test]
fn a_tampered_copy_is_refused_and_nothing_is_left() {
    let (folder, path) = folder();
    let mut store = Store::create(&path).unwrap();
    fill(&mut store);
    drop(store);
    let connection = rusqlite::Connection::open(&path).unwrap();
    connection.execute("UPDATE person SET role = 'somebody'", []).unwrap();
    drop(connection);
    let to = folder.path().join("back.sqlite");
    assert!(matches!(restore(&path, &to), Err(StoreError::NotAsWritten { .. })));
    assert!(!to.exists());
}
