// Processes that a test starts in order to limit, or to kill, them.
#pragma once

#include <sys/types.h>

#include <cstdint>
#include <functional>
#include <string>

namespace wheyfield::testing {

// Runs `work` in a process of its own, so that limits and user ids it takes on end with it. Gives
// what `work` gives, or how the process ended when it did not come that far.
std::string in_child(const std::function<std::string()>& work);

// A process that does something over and over and acknowledges each time it is done.
class Worker {
 public:
  // `work` is called with 0, 1, 2, ... until the process is killed; false ends it.
  explicit Worker(const std::function<bool(std::int64_t turn)>& work);
  // Kills it, if that has not been done.
  ~Worker();
  Worker(const Worker&) = delete;
  Worker& operator=(const Worker&) = delete;

  // Waits for `count` more acknowledgements, or for the end of the process.
  void wait_for(std::uint64_t count);
  // SIGKILL after `microseconds`. Gives how many turns were acknowledged in all.
  std::int64_t kill_after(std::uint64_t microseconds);
  // Whether it was our signal that ended it.
  bool was_killed() const { return killed_; }

 private:
  bool take_one();

  pid_t process_ = -1;
  int acknowledged_end_ = -1;
  std::int64_t acknowledged_ = 0;
  bool killed_ = false;
};

}  // namespace wheyfield::testing
