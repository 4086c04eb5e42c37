// unpack: trusts nothing. Every event is put together as event_of wants it and goes through it.
#include <algorithm>
#include <array>
#include <optional>

#include "journal/nesting.h"
#include "journal/notes_layout.h"
#include "journal/packed_notes.h"

namespace wheyfield::journal {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Problem;
using outcome::Result;

// A body of 16 levels in a column of a member of a shape.
constexpr int deepest_brackets = 22;
// 2^53 with a sign. Sums of two such numbers cannot run over.
constexpr std::size_t longest_number = 17;
// The first day of a four-digit year and the last, more than parse_date takes [days since 1970].
constexpr std::int64_t first_day = -719162;
constexpr std::int64_t last_day = 2932896;

// "0 1 -25": whole numbers, one blank between two.
class NumberColumn {
 public:
  NumberColumn() = default;
  explicit NumberColumn(std::string_view text) : rest_(text), ended_(text.empty()) {}

  bool ended() const { return ended_; }

  // Nothing when it has ended, or no number stands here as pack writes it.
  std::optional<std::int64_t> next() {
    if (ended_) return std::nullopt;
    const std::size_t blank = rest_.find(' ');
    const std::string_view word = rest_.substr(0, blank);
    ended_ = blank == rest_.npos;
    rest_.remove_prefix(ended_ ? rest_.size() : blank + 1);
    return read(word);
  }

 private:
  static std::optional<std::int64_t> read(std::string_view word) {
    const bool below_zero = !word.empty() && word.front() == '-';
    const std::string_view digits = word.substr(below_zero ? 1 : 0);
    if (digits.empty() || word.size() > longest_number) return std::nullopt;
    if (digits.front() == '0' && word != "0") return std::nullopt;
    std::int64_t number = 0;
    for (const char digit : digits) {
      if (digit < '0' || digit > '9') return std::nullopt;
      number = number * 10 + (digit - '0');
    }
    return below_zero ? -number : number;
  }

  std::string_view rest_;
  bool ended_ = true;
};

Problem notes_too_large() {
  return Problem{"notes-too-large", "", "", {{"mb", std::to_string(most_unpacked >> 20)}}};
}

class NotesUnpacker {
 public:
  explicit NotesUnpacker(json notes) : notes_(std::move(notes)) {}

  Result<std::vector<Event>> read() {
    if (!columns() || !shapes()) return failure(std::move(problem_));
    for (std::size_t d = 0; d < notes_["devices"].size(); ++d)
      if (!device(notes_["devices"][d], "/devices/" + std::to_string(d)))
        return failure(std::move(problem_));
    if (!all_used_up()) return failure(std::move(problem_));
    return std::move(events_);
  }

 private:
  struct Shape {
    json* parts = nullptr;
    std::size_t used = 0;
  };

  bool bad(const char* code, std::string field) {
    problem_ = Problem{code, std::move(field), "", {}};
    return false;
  }

  bool columns() {
    if (!notes_.is_object() || notes_.size() != number_columns.size() + 2)
      return bad("notes-member", "");
    for (const char* list : {"devices", "shapes"})
      if (!notes_.contains(list) || !notes_[list].is_array())
        return bad("notes-member", std::string("/") + list);
    for (std::size_t i = 0; i < number_columns.size(); ++i) {
      const auto column = notes_.find(number_columns[i]);
      if (column == notes_.end() || !column->is_string())
        return bad("notes-member", std::string("/") + number_columns[i]);
      numbers_[i] = NumberColumn(column->get_ref<const std::string&>());
    }
    return true;
  }

  bool shapes() {
    for (json& shape : notes_["shapes"]) {
      const std::string field = "/shapes/" + std::to_string(shapes_.size());
      if (!shape.is_object() || !shape.contains("kind") || !shape.contains("v"))
        return bad("notes-member", field);
      const bool whole = shape.contains("bodies");
      const std::size_t members = shape.contains("replaces") ? 4 : 3;
      if (shape.size() != members || whole == shape.contains("body"))
        return bad("notes-member", field);
      if (whole ? !shape["bodies"].is_array() : !members_in_columns(shape["body"]))
        return bad("notes-member", field);
      if (shape.contains("replaces") && !shape["replaces"].is_array())
        return bad("notes-member", field);
      shapes_.push_back({&shape});
    }
    return true;
  }

  static bool members_in_columns(const json& body) {
    return fits_columns(body) && std::all_of(body.begin(), body.end(),
                                             [](const json& column) { return column.is_array(); });
  }

  bool device(const json& device, const std::string& field) {
    if (!device.is_array() || device.size() != 2 || !device[0].is_string() ||
        !device[1].is_number_unsigned())
      return bad("notes-member", field);
    const auto events = device[1].get<std::uint64_t>();
    counter_ = 0;
    for (std::uint64_t i = 0; i < events; ++i)
      if (!event(device[0].get_ref<const std::string&>())) return false;
    return true;
  }

  // The next entry of each number column, in their order. A column that ends early ends the work:
  // no count that is only announced is believed.
  bool row(std::array<std::int64_t, number_columns.size()>& row) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string field = std::string("/") + number_columns[i];
      if (numbers_[i].ended()) return bad("notes-uneven", field);
      const auto number = numbers_[i].next();
      if (!number) return bad("notes-number", field);
      row[i] = *number;
    }
    return true;
  }

  bool event(const std::string& device) {
    std::array<std::int64_t, number_columns.size()> numbers{};
    if (!row(numbers)) return false;
    const auto [counter, at, count, on, utc, shape] = numbers;
    counter_ += counter;
    seconds_ += at;
    // Far outside what parse_event takes: stop before sums run over.
    constexpr std::int64_t far = std::int64_t{1} << 54;
    if (counter_ < 0 || counter_ > far) return bad("notes-number", "/counter");
    if (seconds_ < 0 || seconds_ > far) return bad("notes-number", "/at");
    if (utc < -10000 || utc > 10000) return bad("notes-number", "/utc");
    const std::int64_t day = wall_clock_day(seconds_, utc) + on;
    if (day < first_day || day > last_day) return bad("notes-number", "/on");
    if (shape < 0 || static_cast<std::uint64_t>(shape) >= shapes_.size())
      return bad("notes-number", "/shape");
    json object{{"id", device + "-" + std::to_string(counter_)},
                {"at", {seconds_, count}},
                {"on", calendar::Date::from_days(static_cast<int>(day)).iso()},
                {"utc", utc}};
    return fill(object, static_cast<std::size_t>(shape)) && take(std::move(object));
  }

  // Moves the next entry of a column out of it.
  bool move_next(json& column, std::size_t nth, json& into) {
    if (nth >= column.size()) return bad("notes-uneven", "/shapes");
    into = std::move(column[nth]);
    return true;
  }

  bool fill(json& object, std::size_t number) {
    Shape& shape = shapes_[number];
    const std::size_t nth = shape.used++;
    object["kind"] = (*shape.parts)["kind"];
    object["v"] = (*shape.parts)["v"];
    if (shape.parts->contains("replaces") &&
        !move_next((*shape.parts)["replaces"], nth, object["replaces"]))
      return false;
    if (shape.parts->contains("bodies"))
      return move_next((*shape.parts)["bodies"], nth, object["body"]);
    json body = json::object();
    for (auto& [name, column] : (*shape.parts)["body"].items())
      if (!move_next(column, nth, body[name])) return false;
    object["body"] = std::move(body);
    return true;
  }

  bool take(json object) {
    auto event = event_of(std::move(object));
    if (!event) {
      const Problem& why = event.error().front();
      problem_ = Problem{"notes-event",
                         why.field,
                         why.value.substr(0, 60),
                         {{"nth", std::to_string(events_.size() + 1)}, {"why", why.code}}};
      return false;
    }
    bytes_ += line_of(*event).size();
    if (bytes_ > most_unpacked) {
      problem_ = notes_too_large();
      return false;
    }
    events_.push_back(std::move(*event));
    return true;
  }

  bool all_used_up() {
    for (std::size_t i = 0; i < number_columns.size(); ++i)
      if (!numbers_[i].ended()) return bad("notes-uneven", std::string("/") + number_columns[i]);
    for (const Shape& shape : shapes_)
      if (!shape_used_up(shape)) return bad("notes-uneven", "/shapes");
    return true;
  }

  static bool shape_used_up(const Shape& shape) {
    for (const char* list : {"replaces", "bodies"})
      if (shape.parts->contains(list) && (*shape.parts)[list].size() != shape.used) return false;
    if (!shape.parts->contains("body")) return true;
    for (const auto& [name, column] : (*shape.parts)["body"].items())
      if (column.size() != shape.used) return false;
    return true;
  }

  json notes_;
  std::array<NumberColumn, number_columns.size()> numbers_;
  std::vector<Shape> shapes_;
  std::vector<Event> events_;
  std::int64_t counter_ = 0;
  std::int64_t seconds_ = 0;
  std::size_t bytes_ = 0;
  Problem problem_;
};

}  // namespace

Result<std::vector<Event>> unpack(std::string_view text) {
  if (text.size() > most_unpacked) return failure(notes_too_large());
  if (deeper_than(text, deepest_brackets)) return failure(Problem{"notes-unreadable", "", "", {}});
  json notes = json::parse(text, nullptr, false);
  if (notes.is_discarded()) return failure(Problem{"notes-unreadable", "", "", {}});
  return NotesUnpacker(std::move(notes)).read();
}

}  // namespace wheyfield::journal
