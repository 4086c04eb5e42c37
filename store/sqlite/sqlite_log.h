// Events kept in one SQLite file. The schema, what durable means here and how to back it up:
// docs/formats/store.md.
#pragma once

#include <memory>
#include <string>

#include "journal/event_log.h"

namespace wheyfield::store {

// Opens the file at `path` (UTF-8), or makes it; the folder must be there. A file under that name
// is always whole: a new one gets its name when it is finished, and one that is empty is refused
// instead of being taken for new. Files of other programs are not touched.
//
// Several connections, in one program or in several, may use one file; each call waits up to 5 s
// for the others. One connection is used by one thread at a time, and not across fork().
//
// Errors, with the path in `value`: store-unreadable (details: why, one of no-such-folder,
// a-folder, not-a-file, not-allowed, empty, not-a-notes-file, newer-version, unknown-version),
// store-read-only, store-full, store-busy, store-broken (details: why).
outcome::Result<std::unique_ptr<journal::EventLog>> open_sqlite_log(const std::string& path);

}  // namespace wheyfield::store
