#include "faults/children.h"

#include <signal.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <array>
#include <cstdlib>

namespace wheyfield::testing {
namespace {

struct Pipe {
  Pipe() {
    std::array<int, 2> ends{};
    if (::pipe(ends.data()) != 0) std::abort();
    out = ends[0];
    in = ends[1];
  }
  int out = -1, in = -1;
};

pid_t forked() {
  const pid_t process = ::fork();
  if (process < 0) std::abort();
  return process;
}

std::string ending(int status) {
  if (WIFSIGNALED(status)) return "ended by signal " + std::to_string(WTERMSIG(status));
  return WEXITSTATUS(status) == 0 ? "" : "ended with " + std::to_string(WEXITSTATUS(status));
}

}  // namespace

std::string in_child(const std::function<std::string()>& work) {
  const Pipe pipe;
  const pid_t process = forked();
  if (process == 0) {
    ::close(pipe.out);
    const std::string text = work();
    const bool sent = ::write(pipe.in, text.data(), text.size()) >= 0;
    ::_exit(sent ? 0 : 1);
  }
  ::close(pipe.in);
  std::string text;
  std::array<char, 4096> part{};
  for (ssize_t got = 0; (got = ::read(pipe.out, part.data(), part.size())) > 0;)
    text.append(part.data(), static_cast<std::size_t>(got));
  ::close(pipe.out);
  int status = 0;
  ::waitpid(process, &status, 0);
  return text + ending(status);
}

Worker::Worker(const std::function<bool(std::int64_t turn)>& work) {
  const Pipe pipe;
  process_ = forked();
  if (process_ == 0) {
    ::close(pipe.out);
    for (std::int64_t turn = 0; work(turn); ++turn)
      if (::write(pipe.in, ".", 1) != 1) break;
    ::_exit(1);
  }
  ::close(pipe.in);
  acknowledged_end_ = pipe.out;
}

Worker::~Worker() {
  if (process_ > 0) kill_after(0);
}

bool Worker::take_one() {
  char dot = 0;
  if (::read(acknowledged_end_, &dot, 1) != 1) return false;
  ++acknowledged_;
  return true;
}

void Worker::wait_for(std::uint64_t count) {
  while (count > 0 && take_one()) --count;
}

std::int64_t Worker::kill_after(std::uint64_t microseconds) {
  const timespec pause{0, static_cast<long>(microseconds) * 1000};
  ::nanosleep(&pause, nullptr);
  ::kill(process_, SIGKILL);
  int status = 0;
  ::waitpid(process_, &status, 0);
  process_ = -1;
  killed_ = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
  while (take_one()) {
  }
  ::close(acknowledged_end_);
  return acknowledged_;
}

}  // namespace wheyfield::testing
