// The file as such: is it ours, making a new one, and the schema (docs/formats/store.md).
#pragma once

#include <string>

#include "store/sqlite/connection.h"

namespace wheyfield::store {

// A connection to the file at `path`, made if it was not there, found to be of this program and
// version, and set up as docs/formats/store.md says. Errors: those of open_sqlite_log.
outcome::Result<Connection> open_database(const std::string& path);

}  // namespace wheyfield::store
