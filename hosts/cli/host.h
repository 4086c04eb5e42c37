// The host around one command: the words, the streams, and one open session of the core.
#pragma once

#include <istream>
#include <optional>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "api/core.h"
#include "cli/arguments.h"
#include "cli/input.h"
#include "solvers/cbc/cbc_solver.h"

namespace wheyfield::cli {

struct Streams {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool in_is_terminal = false;
  std::size_t columns = 80;
};

// What the world tells when the command line does not.
struct Surroundings {
  std::string today;  // ISO
  int offset_min = 0;
  long long clock = 0;           // seconds since 1970
  std::string device_file = {};  // where this machine keeps its device code; "" = nowhere
};

// Notes one by one, or the first of each kind with the count of the others.
enum class Notes { all, one_of_a_kind };

class Host {
 public:
  Host(const Arguments& arguments, const words::Catalogue& words, Surroundings surroundings,
       Streams& streams)
      : arguments(arguments),
        words(words),
        streams(streams),
        surroundings_(std::move(surroundings)) {
    core_.use_solver(&solver_);
  }

  // Opens the session once, then asks. An `open` that is refused is the answer to all.
  nlohmann::ordered_json ask(const std::string& action, nlohmann::json body);

  // The text with which a further core is opened like this session.
  std::string open_text() const;

  // Adds facts to the session. `events` is the text of a JSON list of events; `damaged` are ids
  // whose notes cannot be read any more.
  nlohmann::ordered_json append(const std::string& events,
                                const std::vector<std::string>& damaged = {});

  // Prints an answer as --json, --section and --quiet want it: result on standard output, problems
  // on standard error, what must be mended or decided before what is only noted. An answer without
  // pages is shown as JSON. With --json and --section: {schema, pages: the sections, problems,
  // sources}. Gives the exit code.
  int show(const nlohmann::ordered_json& answer, const Document& asked, Notes notes = Notes::all);
  // Only what show says on standard error.
  void show_problems(const nlohmann::ordered_json& answer, const Document& asked, Notes notes);
  // Says which pages there are. Gives the exit code of wrong use.
  int section_unknown(const std::string& section, const std::vector<std::string>& known);
  int refuse(const InputProblems& problems);
  // Without --quiet: a line on standard error.
  void remark(const std::string& text);

  const Arguments& arguments;
  const words::Catalogue& words;
  Streams& streams;
  const Surroundings& surroundings() const { return surroundings_; }

 private:
  std::optional<nlohmann::ordered_json> open();
  int show_pages(const nlohmann::ordered_json& answer);

  Surroundings surroundings_;
  solvers::CbcSolver solver_;
  api::Core core_;
  bool opened_ = false;
};

// The text of the facade's `open`. The bundle's texts are put in as they are, unparsed. `extra` is
// a JSON object with further members (date, offset_min, seed).
std::string open_request(const nlohmann::json& extra, const std::string& language);

// The worst of the problems of an answer: 1 for an error, 4 for a question, else 0.
int exit_code_of(const nlohmann::ordered_json& answer);

}  // namespace wheyfield::cli
