// A log that goes wrong on purpose, once, at a chosen write: for testing what callers do then.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>

#include "journal/event_log.h"

namespace wheyfield::store {

enum class FaultKind {
  fails,  // nothing reaches the log inside; the problem is returned
  tears,  // the first `keep` entries reach the log inside; the problem is returned all the same
  waits   // `meanwhile` is called before the write, which then goes well
};

// A torn write is what a caller sees when the answer is lost on the way, or when a store under the
// log breaks its promise: some of it may be there, and the only thing to do is to send all of it
// again. Write means append or blank.
struct Fault {
  FaultKind kind = FaultKind::fails;
  std::size_t nth = 1;   // the write that goes wrong, counted from 1
  std::size_t keep = 0;  // of a torn write
  outcome::Problem problem{"store-broken", "", "", {{"why", "fault"}}};
  std::function<void()> meanwhile;  // may write to the same store by another road
};

// `inner` with one fault; wrap again for more of them. Reading and verifying are passed through.
std::unique_ptr<journal::EventLog> with_fault(std::unique_ptr<journal::EventLog> inner,
                                              Fault fault);

}  // namespace wheyfield::store
