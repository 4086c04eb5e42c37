// What every store must hold, whatever it is made of. A new store adds itself to the list at the
// end of event_log_suite.cpp.
#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include "journal/event_log.h"

namespace wheyfield::testing {

// Somewhere events are kept, empty at first. Each open() is a connection of its own to it.
class StorePlace {
 public:
  virtual ~StorePlace() = default;
  virtual std::unique_ptr<journal::EventLog> open() = 0;
  // The files it is made of; none for a store that has no files.
  virtual std::vector<std::string> files() const { return {}; }
};

struct StoreUnderTest {
  std::string name;
  std::function<std::unique_ptr<StorePlace>()> make;
};
inline void PrintTo(const StoreUnderTest& store, std::ostream* out) { *out << store.name; }

class EventLogSuite : public ::testing::TestWithParam<StoreUnderTest> {
 protected:
  std::unique_ptr<StorePlace> place = GetParam().make();
  std::unique_ptr<journal::EventLog> log = place->open();
};

}  // namespace wheyfield::testing
