// Events kept in memory: for tests, and for looking at notes that are not to be kept.
#pragma once

#include <memory>

#include "journal/event_log.h"

namespace wheyfield::store {

// What several logs in one process share, as several connections share one file.
class MemoryShelf;
std::shared_ptr<MemoryShelf> make_memory_shelf();

// A log over `shelf`. What was appended lives as long as the shelf does; there is nothing to go
// wrong, so no call gives a problem. Logs of one shelf may be used from several threads.
std::unique_ptr<journal::EventLog> open_memory_log(std::shared_ptr<MemoryShelf> shelf);

}  // namespace wheyfield::store
