// The one door of the core: `call(name, json) -> json`. Start here when writing a host.
//
//   open {data, words, date, offset_min, seed}
//        starts a session: the data bundle, the words of one language, today's civil date, the
//        zone's offset and a seed. Nothing else of the world is seen: no clock, file, random
//        device.
//   append {events, damaged?}
//        adds facts, all of them or none; `damaged` are ids that the host cannot read any more. The
//        host keeps the session, so that a phone does not hand over its journal for every question.
//   call {action, body}
//        asks; see `actions()` for the names. What a person says comes back as `events`: the host
//        stores them, then appends them.
// Every answer has `schema` (1), `problems` and `sources`. A call never throws; a request that is
// no JSON, an unknown name or an unknown action comes back as a problem; its sentences are empty as
// long as no words could be read, and the host shows code, field and value. The same requests give
// the same answers on every machine: texts and order byte-equal, numbers within 1e-9.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace wheyfield::lot_sizing {
class MipSolver;
}

namespace wheyfield::api {

struct Session;

class Core {
 public:
  Core();
  Core(Core&&) noexcept;
  Core& operator=(Core&&) noexcept;
  ~Core();

  std::string call(std::string_view name, std::string_view json);

  // Before `open`: a general solver of the host for season.plan with the method `exact`, which
  // outlives the core. Without one that method is refused; no other answer depends on it.
  void use_solver(const lot_sizing::MipSolver* solver) { solver_ = solver; }

 private:
  const lot_sizing::MipSolver* solver_ = nullptr;
  std::unique_ptr<Session> session_;
};

}  // namespace wheyfield::api
