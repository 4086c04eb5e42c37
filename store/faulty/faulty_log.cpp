#include "store/faulty/faulty_log.h"

#include <algorithm>
#include <utility>

namespace wheyfield::store {
namespace {

using journal::LogEntry;
using outcome::Result;

class FaultyLog : public journal::EventLog {
 public:
  FaultyLog(std::unique_ptr<journal::EventLog> inner, Fault fault)
      : inner_(std::move(inner)), fault_(std::move(fault)) {}

  Result<std::size_t> append(const std::vector<LogEntry>& entries) override {
    return write<std::size_t>(
        entries, [this](const std::vector<LogEntry>& some) { return inner_->append(some); });
  }
  Result<std::size_t> append_numbered(const std::vector<LogEntry>& entries) override {
    return write<std::size_t>(entries, [this](const std::vector<LogEntry>& some) {
      return inner_->append_numbered(some);
    });
  }
  Result<journal::Kept> read() override { return inner_->read(); }
  Result<void> blank(const std::vector<LogEntry>& entries) override {
    return write<void>(entries,
                       [this](const std::vector<LogEntry>& some) { return inner_->blank(some); });
  }
  Result<void> verify() override { return inner_->verify(); }

 private:
  template <class T, class Write>
  Result<T> write(const std::vector<LogEntry>& entries, Write into_inner) {
    if (++writes_ != fault_.nth) return into_inner(entries);
    if (fault_.kind == FaultKind::waits) {
      if (fault_.meanwhile) fault_.meanwhile();
      return into_inner(entries);
    }
    if (fault_.kind == FaultKind::tears) {
      const auto kept = static_cast<std::ptrdiff_t>(std::min(fault_.keep, entries.size()));
      Result<T> part = into_inner(std::vector<LogEntry>(entries.begin(), entries.begin() + kept));
      if (!part) return part;
    }
    return outcome::failure(fault_.problem);
  }

  std::unique_ptr<journal::EventLog> inner_;
  Fault fault_;
  std::size_t writes_ = 0;
};

}  // namespace

std::unique_ptr<journal::EventLog> with_fault(std::unique_ptr<journal::EventLog> inner,
                                              Fault fault) {
  return std::make_unique<FaultyLog>(std::move(inner), std::move(fault));
}

}  // namespace wheyfield::store
